using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>Into the winter place and out of it, by the roots of the species, the place's winters and the forecast.</summary>
internal sealed class WinterStorage : CareRule
{
    private static readonly string[] HeavyWork = ["repotting", "full-defoliation", "decandling"];
    private readonly StorageRules _rules;
    private readonly Roots _roots;
    private readonly WinterCourse _course;

    public WinterStorage(Technique technique, StorageRules rules, TreeYear year) : base(technique, year)
    {
        _rules = rules;
        _roots = new Roots(rules, year);
        _course = new WinterCourse(rules, year);
    }

    public override CareFinding Today()
    {
        var finding = IsStored ? Stored() : Outside();
        return _roots.TooColdHere is { } tooCold ? finding with { Reasons = [.. finding.Reasons, tooCold] } : finding;
    }

    public override IEnumerable<WorkWindow> Windows()
    {
        // A tree that lives in a room has no winter move of its own.
        if (Year.IsIndoors && !IsLoggedIn)
            yield break;
        if ((Window(1, _course.InDays, _course.LastInDays) ?? ForecastWindow()) is not { } moveIn)
            yield break;
        yield return moveIn;
        var outDays = _course.OutDays;
        if (Window(2, outDays, _course.LastOutDays(outDays)) is { } moveOut)
            yield return moveOut;
    }

    private CareFinding Stored()
    {
        if (Year.Group.GrowsWheneverWarm)
        {
            var warm = new WarmNightsTrigger(_rules.WarmClimateC.Value);
            if (!HasWarmWeek || IsColdAhead)
                return new(Verdict.Wait, [Year.Because("in-winter-place")], warm);
            return IsLoggedIn ? MoveOut("A week of nights has stayed warm enough.") : new(Verdict.Leave, [Year.Because("not-triggered", "It may stand outside while nights stay this warm.")]);
        }
        if (CareClock.HasCome(Year, 97))
            return new(Verdict.Wait, [Year.Because("in-winter-place")], OutTrigger);
        if (CareClock.HasCome(Year, 10) && !IsLoggedIn)
            return new(Verdict.Leave, [Year.Because("not-triggered", "It is in leaf; winter is over.")]);
        // Cold drove it in before it was at rest: there it stays.
        if (Year.TodayDay >= Year.LongestDay)
            return new(Verdict.Wait, [Year.Because("in-winter-place")], OutTrigger);
        if (CareClock.HasCome(Year, 1))
            return MoveOut("Buds are moving.");
        return Year.TodayDay >= Year.ShortestDay && BallMeanC > _rules.OutBallC.Value && !IsColdAhead
            ? MoveOut($"The root ball has been above {Degrees(_rules.OutBallC.Value)} for a week.")
            : new(Verdict.Wait, [Year.Because("in-winter-place")], OutTrigger);
    }

    private CareFinding Outside()
    {
        // A tree that left its winter place comes back at the last call only, so that it is not carried to and fro.
        var atC = IsLoggedOut ? _roots.LastCallAtBenchC : _roots.InAtBenchC;
        var opens = new BenchMinTrigger(Math.Round(atC, 1));
        if (!Year.Group.GrowsWheneverWarm && CareClock.HasCome(Year, 1) && Year.TodayDay < Year.LongestDay)
            return new(Verdict.Leave, [Year.Because("not-triggered", "Winter is over.")]);
        if (ColdNight(atC) is { } cold)
            return MoveIn(cold.Night, cold.MinC);
        if (IsLoggedOut)
            return new(Verdict.Wait, [Year.Because("not-triggered", $"It has left its winter place; it comes back at {Degrees(atC)} at the bench.")], new BenchMinTrigger(Math.Round(atC, 1)));
        if (_course.ShareOfWinters is not { } share)
            return new(Verdict.Wait, [Year.Because("not-triggered", $"Armed; it comes in at {Degrees(atC)} at the bench.")], opens);
        if (share == 0)
            return new(Verdict.Leave, [Year.Because("no-winter-storage-here")]);
        if (share < _rules.LeastShare.Value)
            return new(Verdict.Wait, [Year.Because("not-triggered", $"It can stay out in most winters here; it comes in at {Degrees(atC)} at the bench.")], opens);
        if (Year.Group.GrowsWheneverWarm)
            return new(Verdict.Wait, [Year.Because("not-triggered", $"Armed; it comes in when nights near {Degrees(atC)}.")], opens);
        if (!CareClock.IsAtRest(Year))
            return new(Verdict.Wait, [Year.Because("not-open-yet", "It goes in once it rests and has had a few light frosts.")], new AnyTrigger([new PhaseTrigger(97), opens]));
        var taken = _course.LightFrostsTaken;
        return taken >= _rules.LightFrosts.Value
            ? new(Verdict.DoNow, [Year.Because("winter-trigger", $"It rests and has had {taken} light frosts; harder frost would reach the roots this winter.")], opens) { Cautions = First }
            : new(Verdict.Wait, [Year.Because("not-open-yet", $"It rests; {taken} of {_rules.LightFrosts.Value:0} light frosts taken.")], opens);
    }

    // A warm week is no end of winter if the forecast, wrong by a little, would send the tree in again.
    private bool IsColdAhead => ColdNight(_roots.InAtBenchC + _rules.OutMarginC.Value) is not null;

    // Roots die in one night; a tender tree that one cool night meets is a matter of frost protection.
    private (int Night, double MinC)? ColdNight(double atC)
    {
        var nights = Enumerable.Range(0, (int)_rules.LookNights.Value).Where(night => Year.Nights.MinC(night) is not null)
            .Select(night => (Night: night, MinC: Year.Nights.MinC(night)!.Value)).ToList();
        if (nights.Count == 0 || Year.Group.GrowsWheneverWarm && nights.Average(night => night.MinC) > atC)
            return null;
        return nights.Exists(night => night.MinC <= atC) ? nights.Find(night => night.MinC <= atC) : null;
    }

    private CareFinding MoveIn(int night, double minC)
    {
        var isLast = minC <= _roots.LastCallAtBenchC;
        var when = night == 0 ? "Tonight" : night == 1 ? "Tomorrow night" : $"In {night} days";
        var limit = Year.Group.GrowsWheneverWarm
            ? $"it needs more than {Degrees(_roots.InAtBenchC)}"
            : $"{(_roots.AreYoung ? "its young" : "its")} roots die at about {Degrees(_roots.KillC)} in the ball";
        var text = $"{when} the bench may fall to {Degrees(minC)}; {limit}.{(isLast ? " This is the last call." : "")}";
        return new(Verdict.DoNow, [Year.Because("winter-trigger", text)], new BenchMinTrigger(Math.Round(_roots.InAtBenchC, 1))) { Cautions = First };
    }

    private CareFinding MoveOut(string text) => new(Verdict.DoNow, [Year.Because("winter-over", text)])
    {
        Amount = new Dictionary<string, object> { ["move"] = "out" },
        HasFollowUps = false,
        AmountText = "Out into light and air at once, or new shoots run long and pale. Frost protection is armed from now on."
    };

    private Trigger OutTrigger => new AnyTrigger([new PhaseTrigger(1), new RootBallTrigger(_rules.OutBallC.Value)]);

    // Small, weak or heavily worked trees are at risk first.
    private IReadOnlyList<string> First =>
        Year.Tree.Size is TreeSize.Xs or TreeSize.S || Year.Health <= Health.Weak || Array.Exists(HeavyWork, work => Year.Log.Last(work) is not null)
            ? ["Among the first in: small, weak, or worked hard this year."]
            : [];

    private bool IsStored => IsLoggedIn || Year.Tree.Placement == Placement.Indoors || Year.Tree.Placement == Placement.ColdFrame && !IsLoggedOut;

    private bool IsLoggedIn => Year.WinterMoves % 2 == 1;

    private bool IsLoggedOut => Year.IsOutAgain;

    private bool HasWarmWeek
    {
        get
        {
            var week = (int)_rules.OutDays.Value;
            return Enumerable.Range(-week, week).All(night => Year.Nights.MinC(night) > _rules.WarmClimateC.Value);
        }
    }

    private double? BallMeanC => Year.Garden.RootBallC ?? Year.AirMeanC;

    private WorkWindow? Window(int pass, double[] opensDays, double[] closesDays)
    {
        var (opens, closes) = (DateBand.Of(Year.Year, opensDays), DateBand.Of(Year.Year, closesDays));
        if (opens.Likely is not { } on || closes.Likely is not { } off)
            return null;
        closes = new DateBand(Later(closes.Early, opens.Early), Later(off, on), closes.Late is null ? null : Later(closes.Late, opens.Late ?? on));
        var isIn = pass == 1;
        var key = new WindowKey(Year.Tree.Id, Technique.Id, Technique.Modes[0].Id, Year.Year.Year, pass);
        var text = isIn ? $"The ball must not near the {Degrees(_roots.KillC)} that kills its roots." : "Buds or a warm ball end the winter place.";
        var window = WindowWriter.Plain(Judged(Verdict.DoNow, []), key, opens, closes, State(isIn, on, Later(off, on)!.Value), [Year.Because(isIn ? "winter-trigger" : "winter-over", text)]);
        return isIn ? window : window with { Title = "Move out of the winter place", Amount = MoveOut(text).AmountText! };
    }

    // A winter that is mild as a rule may still bring a night its roots do not bear.
    private WorkWindow? ForecastWindow()
    {
        var isThisWinter = Year.TodayDay >= 0 && Year.TodayDay < Year.Year.HeatStartDay + 90;
        if (!isThisWinter || IsStored || Outside().Verdict != Verdict.DoNow || ColdNight(_roots.InAtBenchC) is not { } cold)
            return null;
        var night = Year.TodayDay + cold.Night;
        return Window(1, [Year.TodayDay], [night]);
    }

    // The move in belongs to the winter before this growth year, the move out to its spring.
    private WindowState State(bool isIn, LocalDate on, LocalDate off)
    {
        var winter = Year.Year.DateOf(Year.Year.MidsummerDay).PlusYears(-1);
        var moves = Year.Log.Days(Technique.Id).Where(day => day >= winter && day < winter.PlusYears(1)).Distinct().Count();
        if (moves >= (isIn ? 1 : 2) || off < Year.Today)
            return WindowState.Done;
        return on <= Year.Today ? WindowState.Open : WindowState.Forecast;
    }

    private static LocalDate? Later(LocalDate? date, LocalDate? least) => date < least ? least : date;
}
