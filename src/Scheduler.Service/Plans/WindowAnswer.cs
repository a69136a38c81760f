using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;

namespace Scheduler.Service.Plans;

/// <summary>A window as the API tells it: the ids of its reasons, and the same as sentences under <see cref="Why"/>.</summary>
public sealed record WindowAnswer(
    Guid Id, Guid TreeId, string TreeName, string Technique, string? Mode, string Title,
    BandAnswer Opens, BandAnswer Closes, WindowState State, string? Hold, LocalDate? HeldUntil,
    IReadOnlyList<string> Reasons, IReadOnlyList<string> Why, string Amount,
    IReadOnlyList<string> How, IReadOnlyList<string> Cautions, IReadOnlyList<string> Aftercare,
    int? Minutes, Sessions? Sessions, string? People, int? SessionsDone, int Sequence, Instant ChangedAt)
{
    public static WindowAnswer Of(StoredWindow stored)
    {
        var window = stored.Body.Window;
        return new WindowAnswer(
            stored.Id, stored.Key.TreeId, stored.Body.TreeName, stored.Key.Technique, stored.Key.Mode, window.Title,
            BandAnswer.Of(window.Opens), BandAnswer.Of(window.Closes), window.State, window.Hold, window.HeldUntil,
            [.. window.Reasons.Select(reason => reason.Id)], [.. window.Reasons.Select(reason => reason.Text)],
            window.Amount, window.How, window.Cautions, window.Aftercare, window.Minutes, window.Sessions, window.People, window.SessionsDone,
            stored.Sequence, stored.ChangedAt);
    }
}

/// <summary>10th, 50th and 90th percentile date; equal once it has happened.</summary>
public sealed record BandAnswer(LocalDate? Early, LocalDate? Likely, LocalDate? Late)
{
    public static BandAnswer Of(DateBand band) => new(band.Early, band.Likely, band.Late);
}
