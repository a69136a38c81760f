using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>
/// Which of two versions of a day is kept: final archive, then archive, then the forecast source's own past, then the fallback;
/// what happened before what was forecast. Of equals the newer one counts.
/// </summary>
internal static class DayRanking
{
    /// <summary>After so long a better source's forecast is worth less than a worse source's fresh one (estimate).</summary>
    public static readonly Duration ForecastGoesStale = Duration.FromHours(24);

    /// <summary>The archive changes the last weeks now and then; older days stay as they are (estimate).</summary>
    public const int SurelyFinalAfterDays = 60;

    /// <summary>A younger archive day may still change even if it has been seen twice alike.</summary>
    public const int FinalAfterDays = 7;

    /// <summary>What the row becomes, or null when the stored one stays.</summary>
    public static SourceDay? Winner(SourceDay? stored, SourceDay offered, LocalDate today)
    {
        var incoming = Settle(stored, offered, today);
        if (stored is null)
            return incoming;
        if (!Replaces(stored, incoming))
            return null;
        // The archive is asked for less: what only the forecast source knew of this day is kept.
        return incoming with
        {
            MeanC = incoming.MeanC ?? stored.MeanC,
            PrecipMm = incoming.PrecipMm ?? stored.PrecipMm,
            Et0Mm = incoming.Et0Mm ?? stored.Et0Mm,
            GustKmh = incoming.GustKmh ?? stored.GustKmh
        };
    }

    private static bool Replaces(SourceDay stored, SourceDay incoming)
    {
        if (stored.Final)
            return false;
        int had = Rank(stored), gets = Rank(incoming);
        if (stored.Kind == DayKind.Forecast && incoming.Kind == DayKind.Forecast && gets < had)
            return incoming.FetchedAt - stored.FetchedAt > ForecastGoesStale;
        return gets >= had;
    }

    private static SourceDay Settle(SourceDay? stored, SourceDay offered, LocalDate today)
    {
        if (offered.Source != SourceNames.OpenMeteoArchive)
            return offered;
        var age = Period.DaysBetween(offered.Date, today);
        var seenAlike = stored is { Source: SourceNames.OpenMeteoArchive } && stored.SameTemperaturesAs(offered)
            && stored.FetchedAt < offered.FetchedAt;
        return offered with { Final = age >= SurelyFinalAfterDays || (age >= FinalAfterDays && seenAlike) };
    }

    private static int Rank(SourceDay day) => (day.Kind == DayKind.Observed ? 10 : 0) + day.Source switch
    {
        SourceNames.OpenMeteoArchive => 3,
        SourceNames.OpenMeteo => 2,
        _ => 1
    };
}
