using NodaTime;
using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <summary>Turns a judgement and its passes into windows with everything the owner needs to act.</summary>
internal static class WindowWriter
{
    public static IReadOnlyList<WorkWindow> Of(Judged judged, IReadOnlyList<PassDays> passes)
    {
        var judgement = judged.Wanted[0];
        // Work that was done keeps its window, whatever bars more of it.
        var isOver = judgement.Verdict is Verdict.NotAllowed or Verdict.Leave;
        return [.. passes.Where(pass => !isOver || pass.Pass <= judgement.Visits.Count).Select(pass => Window(judged, judgement, pass))];
    }

    /// <summary>The window of the pass that is next; where none is, that of the first that was done.</summary>
    public static WorkWindow? Next(Judged judged, IReadOnlyList<PassDays> toNext)
    {
        var judgement = judged.Wanted[0];
        var isOver = judgement.Verdict is Verdict.NotAllowed or Verdict.Leave;
        if (toNext.Count > judgement.Visits.Count && !isOver)
            return Window(judged, judgement, toNext[^1]);
        return toNext.Count > 0 && judgement.Visits.Count > 0 ? Window(judged, judgement, toNext[0]) : null;
    }

    public static WorkWindow Plain(Judgement judgement, WindowKey key, DateBand opens, DateBand closes, WindowState state, IReadOnlyList<Reason> reasons)
    {
        var (mode, year) = (judgement.Mode, judgement.Year);
        return new WorkWindow
        {
            Key = key,
            Opens = opens,
            Closes = closes,
            State = state,
            Title = mode.Title,
            Reasons = reasons,
            Amount = Amounts.Text(judgement) ?? "",
            How = Texts(mode.How, year),
            Cautions = Cautions(judgement),
            Aftercare = Texts(mode.Aftercare, year),
            Minutes = mode.Effort.Minutes.TryGetValue(year.Tree.Size, out var minutes) ? minutes : null,
            Sessions = mode.Effort.Sessions,
            People = mode.Effort.People.GetValueOrDefault(year.Tree.Size)
        };
    }

    public static IReadOnlyList<string> Texts(IReadOnlyList<TextRule> rules, TreeYear year) =>
        rules.AllFor(year, rule => rule.Text);

    public static IReadOnlyList<string> Cautions(Judgement judgement) =>
        [.. judgement.Limits, .. Texts(judgement.Mode.Cautions, judgement.Year), .. judgement.Year.Species.Cautions];

    private static WorkWindow Window(Judged judged, Judgement judgement, PassDays pass)
    {
        var year = judgement.Year;
        var opens = pass.OpensBand(year.Year);
        var closes = pass.ClosesBand(year.Year);
        var state = State(judgement, pass.Pass, opens, closes);
        opens = Aligned(opens, state, year.Today);
        if (closes.Late < year.Today)
            closes = DateBand.On(closes.Likely!.Value);
        closes = NotBefore(closes, opens);
        var isNext = pass.Pass == judgement.Visits.Count + 1;
        int? sessionsDone = isNext && state != WindowState.Missed
            ? SessionRule.Done(judgement.Key, year, judgement.MostPasses, judgement.Visits.Count) is > 0 and var sessions ? sessions : null : null;
        List<Reason> reasons = [.. judgement.Because()];
        if (state == WindowState.Done)
            reasons.Add(year.Because("done-this-window"));
        else if (isNext && state is not WindowState.Forecast)
            reasons.AddRange(judgement.Reasons.Where(reason => !reasons.Exists(known => known.Id == reason.Id)));
        else if (judgement.Verdict == Verdict.Ask && isNext)
            reasons.AddRange(judgement.Reasons.Where(reason => reason.Id == "fact-missing"));
        if (sessionsDone is { } done)
            reasons.Add(year.Because("sessions-left", Told(done, judgement.Mode.Effort.Sessions)));
        var key = new WindowKey(year.Tree.Id, judgement.Technique.Id, judgement.Mode.Id, year.Year.Year, pass.Pass);
        return Plain(judgement, key, opens, closes, state, reasons) with
        {
            Amount = (isNext ? PartWords.Amount(judged) : Amounts.Text(judgement)) ?? "",
            Hold = state == WindowState.Held ? judgement.Held?.Hold : null,
            HeldUntil = state == WindowState.Held ? judgement.Held?.Until : null,
            SessionsDone = sessionsDone
        };
    }

    private static WindowState State(Judgement judgement, int pass, DateBand opens, DateBand closes)
    {
        var today = judgement.Year.Today;
        if (pass <= judgement.Visits.Count)
            return WindowState.Done;
        var byDates = closes.Likely < today ? WindowState.Missed : opens.Likely <= today ? WindowState.Open : WindowState.Forecast;
        if (pass > judgement.Visits.Count + 1)
            return byDates == WindowState.Open ? WindowState.Forecast : byDates;
        return judgement.Verdict switch
        {
            Verdict.DoNow => WindowState.Open,
            Verdict.Missed => WindowState.Missed,
            Verdict.Wait => judgement.Held is null ? WindowState.Forecast : WindowState.Held,
            _ => byDates
        };
    }

    private static string Told(int done, Sessions? sessions) => sessions is { Low: var low } && done < low
        ? $"{done} of {low} sessions {(done == 1 ? "is" : "are")} logged. It closes with the last of them, or as soon as you log that it is finished."
        : $"{done} {(done == 1 ? "session is" : "sessions are")} logged, and not all is done. Log that it is finished once nothing is left.";

    // What was seen outranks the clock: an open window opened today at the latest, one still to open does so tomorrow at the earliest.
    private static DateBand Aligned(DateBand opens, WindowState state, LocalDate today)
    {
        if (opens.Late < today)
            return DateBand.On(opens.Likely!.Value);
        if (state is WindowState.Open or WindowState.Held && opens.Likely > today)
            return DateBand.On(today);
        var tomorrow = today.PlusDays(1);
        return state == WindowState.Forecast && opens.Likely < tomorrow ? NotBefore(opens, DateBand.On(tomorrow)) : opens;
    }

    private static DateBand NotBefore(DateBand band, DateBand least) =>
        new(Later(band.Early, least.Early), Later(band.Likely, least.Likely), Later(band.Late, least.Late));

    private static LocalDate? Later(LocalDate? date, LocalDate? least) => date < least ? least : date;
}
