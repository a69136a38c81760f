using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>One day of a cell as a source gave it, at the cell's own height: °C, mm and km/h; null is not known.</summary>
/// <param name="Kind">Only <see cref="DayKind.Observed"/> or <see cref="DayKind.Forecast"/>.</param>
/// <param name="Final">Nothing more is expected to change: old enough and seen twice alike.</param>
internal sealed record SourceDay(
    LocalDate Date,
    double MinC,
    double MaxC,
    double? MeanC,
    double? PrecipMm,
    double? Et0Mm,
    double? GustKmh,
    DayKind Kind,
    string Source,
    bool Final,
    Instant FetchedAt)
{
    public bool SameWeatherAs(SourceDay other) =>
        (MinC, MaxC, MeanC, PrecipMm, Et0Mm, GustKmh) ==
        (other.MinC, other.MaxC, other.MeanC, other.PrecipMm, other.Et0Mm, other.GustKmh);

    public bool SameTemperaturesAs(SourceDay other) => (MinC, MaxC) == (other.MinC, other.MaxC);
}

/// <summary>A day of an answer that must not be stored, and why.</summary>
/// <param name="IsFault">False where the source merely does not know the day yet.</param>
internal sealed record RefusedDay(LocalDate Date, string Reason, bool IsFault = true);
