using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Weather;

namespace Scheduler.Domain.Techniques;

/// <content>When growth reaches a point, and whether it has.</content>
public sealed partial class TreeYear
{
    private const int BloomOver = 69;

    public SeasonMember MemberOf(int draw) => Outlook.MemberOf(draw);
    public int ShortestDay => Year.HeatStartDay - 11;
    public int LongestDay => Year.HeatStartDay + 172;

    /// <summary>Axis day of the first autumn frost as the owner counts it; null indoors and where no frost comes.</summary>
    public double? FrostDay => IsIndoors ? null : Garden.CautiousFirstFrost ? Outlook.Season.Frost.CautiousDay : Outlook.Season.Frost.AverageDay;

    /// <summary>
    /// Whether a phase is reached. It is when it was seen, or when the clock's late date is past; it is not when its
    /// early date is still to come, or less was seen today; in between only the owner can tell.
    /// </summary>
    /// <param name="bbch">The code.</param>
    /// <param name="everywhere">A window closes when every part of the crown has come so far; it opens with the first.</param>
    public Truth Reached(int bbch, bool everywhere = false)
    {
        if (bbch == BloomOver && FlowersTaken is not null)
            return Truth.Yes;
        var seen = GrowthScale.IsFlowerCode(bbch) ? Seen.FlowerPhases : Seen.LeafPhases;
        if (seen.Count > 0)
        {
            if (everywhere ? seen.All(phase => Implies(phase.Bbch!.Value, bbch)) : seen.Any(phase => Implies(phase.Bbch!.Value, bbch)))
                return Truth.Yes;
            if (everywhere ? seen.Any(phase => Seen.IsToday(phase) && !Implies(phase.Bbch!.Value, bbch)) : seen.All(Seen.IsToday))
                return Truth.No;
        }
        if (CandleCode is not { } candle)
            return OnClock(bbch);
        // A candle that was just looked at and is not so far answers for the shoot and its hardening.
        return Implies(candle, bbch) ? Truth.Yes : Seen.CandleFresh == true && bbch is > 30 and < 50 or 91 ? Truth.No : OnClock(bbch);
    }

    /// <summary>Early, likely and late date of a phase.</summary>
    public DateBand Band(int bbch) => Outlook.Band(bbch);

    public Truth Leaves(int count, bool everywhere = false)
    {
        var seen = Seen.LeafCounts;
        if (seen.Count > 0)
        {
            if (everywhere ? seen.All(shoot => shoot.LeafCount >= count) : seen.Any(shoot => shoot.LeafCount >= count))
                return Truth.Yes;
            if (everywhere ? seen.Any(shoot => Seen.IsToday(shoot) && shoot.LeafCount < count) : seen.All(Seen.IsToday))
                return Truth.No;
        }
        return Group.GrowsWheneverWarm ? Truth.Unknown : Reached(LeafCode(count), everywhere);
    }

    public Truth Hardened() => Seen.Hardened switch
    {
        true => Truth.Yes,
        false => Truth.No,
        null => Reached(91)
    };

    public Truth LeavesFullSize()
    {
        if (Seen.LeavesFullSize == true || Hardened() == Truth.Yes)
            return Truth.Yes;
        return Passed(FullSizeDay);
    }

    /// <summary>Heat since an event whose day is known [C*d]; null when the day is not known.</summary>
    public double? HeatSince(int baseC, string from)
    {
        if (from is "today" or "this-work")
            return 0;
        LocalDate? date = from.StartsWith("bbch-", StringComparison.Ordinal)
            ? Seen.FirstSeen(Code(from)) ?? Outlook.SeenOn(Code(from))
            : Log.Last(from["work:".Length..])?.Date.PlusDays(1);
        if (date is null || Outlook.DrawCount == 0)
            return null;
        var total = MemberOf(0).HeatCd(baseC);
        return Math.Max(0, SeasonMember.HeatAt(total, TodayDay) - SeasonMember.HeatAt(total, Year.DayOf(date.Value)));
    }

    /// <summary>Whether something dated in every draw has come: past its late date, before its early date, or in between.</summary>
    public Truth Passed(Func<int, double> dayOf)
    {
        if (Outlook.DrawCount == 0)
            return Truth.Unknown;
        var days = new double[Outlook.DrawCount];
        for (var draw = 0; draw < days.Length; draw++)
            days[draw] = dayOf(draw);
        return Passed(days);
    }

    /// <summary>The same of days that are known. Ranks are counted, which says as much as the dates would.</summary>
    public Truth Passed(double[] days)
    {
        ArgumentNullException.ThrowIfNull(days);
        if (days.Length == 0 || double.IsNaN(days[0]))
            return Truth.Unknown;
        int past = 0, come = 0, never = 0;
        foreach (var day in days)
        {
            past += day < TodayDay ? 1 : 0;
            come += day < TodayDay + 1 ? 1 : 0;
            never += double.IsPositiveInfinity(day) ? 1 : 0;
        }
        var last = days.Length - 1;
        // Not expected, or the early date is still to come.
        if (days.Length - never <= DateBand.Rank(0.5, last) || come <= DateBand.Rank(0.1, last))
            return Truth.No;
        return past > DateBand.Rank(0.9, last) ? Truth.Yes : Truth.Unknown;
    }

    /// <summary>Heat normally still to come [C*d], above base 5 until the first frost, above base 10 until a fortnight before.</summary>
    public double? RemainingHeatCd(int baseC) =>
        Outlook.Season.HasWeather ? Outlook.Season.Frost.RemainingCd(baseC, TodayDay, HeatEnd(baseC)) : null;

    public double RemainingHeatDay(int baseC, double belowCd)
    {
        if (_memory.RemainingDays.TryGetValue((baseC, belowCd), out var known))
            return known;
        double end = HeatEnd(baseC), low = 0, high = end;
        while (high - low > 0.5)
        {
            var middle = (low + high) / 2;
            if (Outlook.Season.Frost.RemainingCd(baseC, middle, end) <= belowCd)
                high = middle;
            else
                low = middle;
        }
        return _memory.RemainingDays[(baseC, belowCd)] = Math.Floor(high);
    }

    public double NightsDay(int draw, double limitC, bool above)
    {
        if (!_memory.NightDays.TryGetValue((limitC, above), out var days))
        {
            days = [.. Outlook.Season.Members.Select(member => NightsDay(member, limitC, above))];
            _memory.NightDays[(limitC, above)] = days;
        }
        return days[draw / (Outlook.DrawCount / days.Length)];
    }

    /// <summary>Mean of the last nights' minima [C]; null when none is known.</summary>
    public double? NightMeanC => MeanOfLastDays(day => day.MinC);

    public double? AirMeanC => MeanOfLastDays(day => (day.MinC + day.MaxC) / 2);

    /// <summary>First day on which daylight has shortened too far to force growth; infinity outside the latitudes it holds for.</summary>
    public double BackstopDay
    {
        get
        {
            if (_memory.BackstopDay is { } known)
                return known;
            var latitude = Math.Abs(Garden.Latitude);
            var day = double.PositiveInfinity;
            if (latitude >= Thresholds.BackstopFromLatitude.Value && latitude <= Thresholds.BackstopToLatitude.Value)
            {
                day = LongestDay;
                var longest = Daylight((int)day);
                while (longest - Daylight((int)day) <= Thresholds.DayLengthBackstopMinutes.Value / 60)
                    day++;
            }
            _memory.BackstopDay = day;
            return day;
        }
    }

    private int? CandleCode => Seen.Candle is { } candle ? Triggers.CandleTrigger.CodeOf(candle) : null;

    private LocalDate? FlowersTaken => Log.Last("flower-fruit-removal/flowers")?.Date;

    private double Daylight(int day) => DayLength.ForsytheHours(Garden.Latitude, Year.DateOf(day).DayOfYear);

    private double HeatEnd(int baseC) => (FrostDay ?? Year.Days - 1) - (baseC == 10 ? 14 : 0);

    private int LeafCode(int count) => 10 + Math.Min(9, Species.HasOppositeLeaves ? (count + 1) / 2 : count);

    private static int Code(string from) => int.Parse(from.AsSpan("bbch-".Length), System.Globalization.CultureInfo.InvariantCulture);

    private Truth OnClock(int bbch)
    {
        if (!Outlook.Season.HasWeather || Group.GrowsWheneverWarm)
            return Truth.Unknown;
        return Passed(Band(bbch));
    }

    private Truth Passed(DateBand band)
    {
        if (!band.IsExpected || band.Early > Today)
            return Truth.No;
        return band.Late < Today ? Truth.Yes : Truth.Unknown;
    }

    // Codes on one track only; but shoots that lengthen have opened, and hardened ones have done all that.
    private static bool Implies(int seen, int bbch) => seen switch
    {
        >= 91 => bbch <= seen,
        >= 51 => bbch <= seen,
        >= 31 => bbch <= 10 || bbch >= 31 && bbch <= seen,
        _ => bbch <= seen
    };

    private double NightsDay(SeasonMember member, double limitC, bool above)
    {
        var window = (int)Thresholds.NightMeanDays.Value;
        if (above)
        {
            for (var day = Math.Max(ShortestDay, window); day < member.Days; day++)
            {
                if (MeanC(day) > limitC)
                    return day;
            }
            return double.PositiveInfinity;
        }
        // A cool spell ends nothing: the day after the last warm one does.
        var end = Math.Max(LongestDay, window);
        for (var day = member.Days - 1; day >= end; day--)
        {
            if (MeanC(day) > limitC)
                return day == member.Days - 1 ? double.PositiveInfinity : day + 1;
        }
        return end;

        double MeanC(int day)
        {
            var sum = 0d;
            for (var back = 0; back < window; back++)
                sum += member.MinC[day - back];
            return sum / window;
        }
    }

    private double? MeanOfLastDays(Func<DayWeather, double> value)
    {
        var from = Today.PlusDays(1 - (int)Thresholds.NightMeanDays.Value);
        double sum = 0;
        var count = 0;
        foreach (var day in Garden.Days)
        {
            if (day.Date < from || day.Date > Today)
                continue;
            sum += value(day);
            count++;
        }
        return count == 0 ? null : sum / count;
    }
}
