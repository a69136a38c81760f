using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// Answers one mode of a technique on one tree, or a part of it, today. The order of steps is fixed and the first that decides gives the
/// verdict: barred, not wanted, facts missing, window, unknown history, weather, do it.
/// </summary>
internal static class Judge
{
    public const string WeakAndInnerStay = "weak-and-inner-stay";

    /// <param name="technique">The technique.</param>
    /// <param name="mode">Its mode.</param>
    /// <param name="year">The tree, or a part of it.</param>
    /// <param name="isAlone">No other part of the tree is to be worked this way.</param>
    public static Judgement Of(Technique technique, TechniqueMode mode, TreeYear year, bool isAlone)
    {
        if (mode.IsStatement || mode.AsNeeded)
            return Of(technique, mode, year, isAlone, 1, []);
        var most = mode.Repeat?.Most.FirstFor(year)?.Passes ?? 1;
        var (visits, isRunning) = SessionRule.Of(Key(technique, mode), mode, year, most);
        if (isRunning && Of(technique, mode, year, isAlone, most, [.. visits.SkipLast(1)]) is var running && GoesOn(running))
            return running with { IsBegun = true };
        return Of(technique, mode, year, isAlone, most, visits);
    }

    // Once its time is over, or more of it is barred, what was begun counts as done.
    private static bool GoesOn(Judgement running) => running.Verdict is Verdict.DoNow or Verdict.Ask
        || running.Verdict == Verdict.Wait && (running.Held is not null || !running.Mode.RoundAgain);

    private static string Key(Technique technique, TechniqueMode mode) =>
        mode.Id is null || technique.Id == "repotting" ? technique.Id : $"{technique.Id}/{mode.Id}";

    private static Judgement Of(
        Technique technique, TechniqueMode mode, TreeYear year, bool isAlone, int mostPasses, IReadOnlyList<NodaTime.LocalDate> visits)
    {
        var load = LoadBudget.LoadOn(year, technique, mode, isAlone);
        var judgement = new Judgement { Technique = technique, Mode = mode, Year = year, Verdict = Verdict.Leave, Reasons = [], Load = load };
        if (mode.IsStatement)
            return judgement with { Reasons = [.. judgement.Because()] };

        var tests = Tables.Outcomes(technique, mode, year);
        judgement = judgement with
        {
            Visits = visits,
            MostPasses = mostPasses,
            Limits = Limits(technique, mode, year, tests),
            LeafRoomPercent = LeafAreaCap.Binds(technique, mode) && year.IsCurrent ? LeafAreaCap.LeftPercent(technique.Id, year) : null
        };
        List<Bar> bars = [.. Gates.Bars(technique, mode, year, load, judgement.IsDone)];
        foreach (var test in tests)
        {
            if (test.Effect == Effect.Bar)
                bars.Add(new Bar(year.Because(test.Reason!, test.Text), test.Until));
        }
        if (bars.Count > 0)
            return judgement with { Verdict = Verdict.NotAllowed, Reasons = Distinct(bars), BarredUntil = bars.Find(bar => bar.Until is not null)?.Until };
        if (NotWanted(judgement, tests) is { } unwanted)
            return judgement with { Reasons = unwanted };
        return InItsWindow(WithWindow(judgement, tests), tests);
    }

    private static List<Reason>? NotWanted(Judgement judgement, List<Outcome> tests)
    {
        var year = judgement.Year;
        if (judgement.IsDone)
            return [year.Because("done-this-window")];
        List<Reason>? leave = null;
        foreach (var test in tests)
        {
            if (test.Effect == Effect.Leave)
                (leave ??= []).Add(year.Because(test.Reason!, test.Text));
        }
        if (Amounts.IsNone(judgement.Mode, year))
            (leave ??= []).Add(year.Because(WeakAndInnerStay));
        return leave;
    }

    private static Judgement WithWindow(Judgement judgement, List<Outcome> tests)
    {
        var (mode, year) = (judgement.Mode, judgement.Year);
        var (opens, closes) = Passes.Rule(mode, year, judgement.Visits.Count + 1);
        List<Trigger>? all = null;
        foreach (var test in tests)
        {
            if (test.Effect == Effect.Time)
                (all ??= [opens]).Add(test.Until!);
        }
        foreach (var gap in mode.Gaps)
        {
            if (gap.After.Any(work => year.Log.Last(work) is not null))
                (all ??= [opens]).Add(gap.Until);
        }
        if (all is not null)
            opens = new AllTrigger(all);
        return judgement with { Opens = opens, Closes = closes };
    }

    private static Judgement InItsWindow(Judgement judgement, List<Outcome> tests)
    {
        var (mode, year) = (judgement.Mode, judgement.Year);
        var late = mode.LastDaysToFrost is { } days && new DaysToFrostTrigger(days).Today(year, Side.Closing) == Truth.Yes;
        var closed = judgement.Closes?.Today(year, Side.Closing) ?? Truth.No;
        if ((late || closed == Truth.Yes) && !mode.AsNeeded)
            return mode.RoundAgain ? NextTime(judgement) : Missed(judgement, late, tests.Find(test => test.Effect == Effect.Ask));

        if (Gates.IndoorsWait(judgement.Technique, year) is { } indoors)
            return Answer(judgement, indoors.Verdict, indoors.Verdict == Verdict.Ask ? "fact-missing" : "light-or-warmth-short", indoors.Text);
        var open = judgement.Opens!.Today(year, Side.Opening);
        if (open == Truth.No)
            return Answer(judgement, Verdict.Wait, "not-open-yet", $"It opens when {judgement.Opens.StillWaited(year, Side.Opening).Words}.");
        if (open == Truth.Unknown)
            return Answer(judgement, Verdict.Ask, "fact-missing", judgement.Opens.StillWaited(year, Side.Opening).Question);
        if (closed == Truth.Unknown && !mode.AsNeeded)
            return Answer(judgement, Verdict.Ask, "fact-missing", $"It may be over already. {judgement.Closes!.Question}");
        if (tests.FirstOrDefault(test => test.Effect == Effect.Ask) is { } ask)
            return Answer(judgement, Verdict.Ask, ask.Reason!, ask.Text);
        if (mode.LeastDensity is { } least && !(LeafWork.DensityNow(year) >= least))
        {
            return LeafWork.DensityNow(year) is null
                ? Answer(judgement, Verdict.Ask, "fact-missing", $"Score how dense the crown is (0-3); it needs {least}.")
                : judgement with { Verdict = Verdict.Leave, Reasons = [year.Because("not-dense")] };
        }
        if (judgement.Technique.Id == "cut-back" && year.Branch?.Girth == Trees.Girth.TooThin)
        {
            var thin = year.Because("leaves-are-fuel", "It has its leaves, but the branch is too thin: let it run to the end of the season.");
            return judgement with { Verdict = Verdict.Leave, Reasons = [thin] };
        }
        if (judgement.Load >= 2 && !year.IsRootWorkKnown)
            return Answer(judgement, Verdict.Ask, "fact-missing", "When were the roots last worked? Heavy work depends on it.");
        var holds = new WeatherHolds(year);
        if (holds.Of(judgement.Technique, mode.Holds) is { } held)
            return HeldUp(judgement, held);
        return judgement with { Verdict = Verdict.DoNow, Reasons = judgement.Because(), Limits = [.. judgement.Limits, .. holds.Limits(mode.Holds)] };
    }

    private static Judgement HeldUp(Judgement judgement, Held held)
    {
        var year = judgement.Year;
        var closes = Passes.ClosingBand(judgement);
        if (closes.Likely < held.Until && !judgement.Mode.AsNeeded && !judgement.Mode.RoundAgain)
            return Missed(judgement with { Held = held }, late: false);
        var sentence = year.Craft.Holds.GetValueOrDefault(held.Hold);
        return Answer(judgement with { Held = held }, Verdict.Wait, "held-by-weather", sentence);
    }

    // Work that comes round waits for its time in the season to come.
    private static Judgement NextTime(Judgement judgement)
    {
        var next = new SeasonTrigger("next-season");
        return Answer(judgement with { Opens = next, Closes = null }, Verdict.Wait, "not-open-yet", "Its time is over for this season; it comes round again in the next.");
    }

    // What nobody could tell while it was open is told with it, so that it is looked at before the next time.
    private static Judgement Missed(Judgement judgement, bool late, Outcome? unanswered = null)
    {
        var year = judgement.Year;
        List<Reason> reasons = [year.Because("window-closed")];
        if (unanswered is not null)
            reasons.Add(year.Because("fact-missing", $"Not answered in time: {unanswered.Text}"));
        if (late || judgement.Closes is { } closes && IsCountedBack(closes, year))
            reasons.Add(year.Because("too-late-to-harden"));
        return judgement with { Verdict = Verdict.Missed, Reasons = reasons };
    }

    private static bool IsCountedBack(Trigger trigger, TreeYear year) => trigger switch
    {
        DaysToFrostTrigger or RemainingHeatTrigger => trigger.Today(year, Side.Closing) == Truth.Yes,
        AnyTrigger any => any.Parts.Any(part => IsCountedBack(part, year)),
        _ => false
    };

    private static Judgement Answer(Judgement judgement, Verdict verdict, string reason, string? text) => judgement with
    {
        Verdict = verdict,
        Reasons = [judgement.Year.Because(reason, text), .. judgement.Because()]
    };

    private static IReadOnlyList<string> Limits(Technique technique, TechniqueMode mode, TreeYear year, List<Outcome> tests)
    {
        List<string>? limits = null;
        foreach (var test in tests)
        {
            if (test.Effect is Effect.Limit or Effect.Ask)
                (limits ??= []).Add(test.Text!);
        }
        if (Gates.RootWorkLimit(technique, mode, year) is { } roots)
            (limits ??= []).Add(roots);
        return limits ?? (IReadOnlyList<string>)[];
    }

    private static List<Reason> Distinct(List<Bar> bars) => [.. bars.Select(bar => bar.Reason).DistinctBy(reason => reason.Id)];
}
