using NodaTime;
using Scheduler.Service.Hindcast;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Pages.Clock;

/// <summary>How well the growth clock did in the past years of one garden.</summary>
/// <param name="DateCount">Dates the owner has logged that can be judged; each year of a phase counts once.</param>
/// <param name="Work">Null: it was not asked for yet.</param>
/// <param name="IsStale">The log or the weather changed since it was worked out.</param>
/// <param name="Shown">After filter and order; empty while it is not worked out.</param>
public sealed record ClockView(
    Guid GardenId, IReadOnlyList<(Guid Id, string Name)> Gardens, LocalDate Today, DateTimeZone Zone, ClockQuery Query, int DateCount, LongWork.LongWorkState? Work, bool IsStale,
    IReadOnlyList<SeriesResult> Shown, IReadOnlyList<(string Id, string Name)> Species, WeatherStatus Weather);

/// <summary>One phase of one species.</summary>
public sealed record SeriesResult(string SpeciesId, string SpeciesName, string PhaseId, HindcastAnswer Answer)
{
    public int Told => Answer.Years.Count(year => year.Likely is not null);
}

/// <param name="LeadDays">Days before the usual date on which the clock is asked; null: with the whole season's weather.</param>
/// <param name="Species">Null: all.</param>
/// <param name="Sort"><c>species</c> or <c>error</c>.</param>
public sealed record ClockQuery(int? LeadDays, string? Species, string Sort)
{
    public static readonly IReadOnlyList<string> Leads = ["", "7", "14", "30"];

    public string Question => LeadDays is { } days ? $"hindcast {days}" : "hindcast";

    public static ClockQuery Of(string? lead, string? species, string? sort) => new(
        lead is not null && Leads.Contains(lead) && lead.Length > 0 ? int.Parse(lead, System.Globalization.CultureInfo.InvariantCulture) : null,
        string.IsNullOrEmpty(species) ? null : species, sort == "error" ? "error" : "species");
}
