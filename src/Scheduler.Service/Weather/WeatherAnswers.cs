using NodaTime;

namespace Scheduler.Service.Weather;

/// <summary>Items of a list that has no further pages.</summary>
public sealed record PlaceList(IReadOnlyList<Place> Items, string? Next);

/// <summary>How an upload of readings ended.</summary>
public sealed record ReadingsAnswer(int Accepted, IReadOnlyList<RejectedLine> Rejected);

/// <summary>A garden's weather: °C, mm and km/h.</summary>
/// <param name="State"><c>none</c>, <c>backfilling</c>, <c>ready</c> or <c>stale</c>.</param>
/// <param name="Problem">What went wrong last; the days shown are the last good ones.</param>
public sealed record GardenWeatherAnswer(
    Instant? AsOf, string State, int YearsDone, int YearsWanted, string? Problem, IReadOnlyList<SourceUse> Sources,
    IReadOnlyList<DayAnswer> Days);

/// <param name="Kind"><c>observed</c>, <c>reading</c> or <c>forecast</c>.</param>
/// <param name="Final">False while a better value may still come.</param>
/// <param name="ModelTminC">What the weather source had where the owner's reading counts.</param>
public sealed record DayAnswer(
    LocalDate Date, double TminC, double TmaxC, double? PrecipMm, string Kind, string Source, double? GustKmh, double? Et0Mm, bool Final,
    Instant? FetchedAt, double? ModelTminC, double? ModelTmaxC);

/// <param name="Changed">Whether any day is another than before.</param>
public sealed record RefreshAnswer(bool Changed, string State, Instant? AsOf, string? Problem);
