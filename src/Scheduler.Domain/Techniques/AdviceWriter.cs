namespace Scheduler.Domain.Techniques;

/// <summary>Puts a verdict into everything the owner needs: reasons, amount, how, cautions, what opens, what follows.</summary>
internal static class AdviceWriter
{
    public static TechniqueAdvice Of(IReadOnlyList<Judged> modes)
    {
        var first = modes.MinBy(judged => judged.Judgement.Verdict)!;
        var judgement = first.Judgement;
        var advice = Whole(judgement) with
        {
            Window = first.Windows.FirstOrDefault(window => window.State != WindowState.Done) ?? (first.Windows.Count > 0 ? first.Windows[0] : null)
        };
        return judgement.Mode.Id is null ? advice : advice with { Parts = [.. modes.Select(judged => Part(judged.Judgement))] };
    }

    public static TechniqueAdvice Frost(Technique technique, TreeYear year)
    {
        var watch = new FrostWatch(year);
        var (verdict, reasons, opens) = watch.Today();
        var judgement = new Judgement { Technique = technique, Mode = technique.Modes[0], Year = year, Verdict = verdict, Reasons = reasons };
        return Whole(judgement) with { Opens = opens, Window = watch.Windows(technique).FirstOrDefault(IsAhead) };

        static bool IsAhead(WorkWindow window) => window.State is WindowState.Forecast or WindowState.Open;
    }

    private static TechniqueAdvice Whole(Judgement judgement)
    {
        var (mode, year, verdict) = (judgement.Mode, judgement.Year, judgement.Verdict);
        var isWork = verdict is Verdict.DoNow or Verdict.Ask or Verdict.Wait;
        return new TechniqueAdvice
        {
            Technique = judgement.Technique.Id,
            Verdict = verdict,
            Reasons = judgement.Reasons,
            Amount = isWork || mode.IsStatement ? Amounts.Entries(judgement) : [],
            AmountText = isWork || mode.IsStatement ? Amounts.Text(judgement) : null,
            How = isWork ? WindowWriter.Texts(mode.How, year) : [],
            Cautions = isWork ? [.. Closing(judgement), .. WindowWriter.Cautions(judgement)] : [],
            Aftercare = isWork ? WindowWriter.Texts(mode.Aftercare, year) : [],
            Opens = isWork ? Displayed.Opens(judgement) : null,
            Closes = isWork ? Displayed.Closes(judgement) : null,
            Hold = verdict == Verdict.Wait ? judgement.Held?.Hold : null,
            HeldUntil = verdict == Verdict.Wait ? judgement.Held?.Until : null,
            BarredUntil = judgement.BarredUntil,
            Fallback = verdict is Verdict.DoNow or Verdict.Ask or Verdict.Wait or Verdict.Missed ? FallbackOf(judgement) : null,
            FollowUps = FollowUps(judgement),
            Minutes = isWork || mode.IsStatement ? mode.Effort.Minutes.TryGetValue(year.Tree.Size, out var minutes) ? minutes : null : null,
            Sessions = isWork ? mode.Effort.Sessions : null,
            People = isWork ? mode.Effort.People.GetValueOrDefault(year.Tree.Size) : null
        };
    }

    private static ModeAdvice Part(Judgement judgement)
    {
        var whole = Whole(judgement);
        return new ModeAdvice(judgement.Mode.Id!, whole.Verdict, whole.Reasons, whole.Amount, whole.Opens, whole.Closes, whole.BarredUntil, whole.Hold)
        {
            AmountText = whole.AmountText,
            Fallback = whole.Fallback,
            Minutes = whole.Minutes,
            Sessions = whole.Sessions,
            FollowUps = whole.FollowUps
        };
    }

    private static Fallback? FallbackOf(Judgement judgement) =>
        judgement.Mode.Fallbacks.FirstOrDefault(rule => rule.For.Fits(judgement.Year)) is { } rule
            ? new Fallback(rule.Techniques, rule.When, rule.Text)
            : null;

    private static IReadOnlyList<FollowUp> FollowUps(Judgement judgement) =>
    [
        .. judgement.Mode.FollowUps
            .Where(rule => rule.On.Contains(judgement.Verdict) && rule.For.Fits(judgement.Year))
            .Select(rule => new FollowUp(rule.What, rule.When, rule.Technique, rule.Text))
    ];

    // Less than a fifth of the time from opening to likely closing is left.
    private static IEnumerable<string> Closing(Judgement judgement)
    {
        if (judgement.Verdict != Verdict.DoNow || judgement.Opens is null)
            yield break;
        var days = Passes.Of(judgement) is { Count: > 0 } passes ? passes[^1] : null;
        if (days is null || days.OpensBand(judgement.Year.Year).Likely is not { } opened || days.ClosesBand(judgement.Year.Year).Likely is not { } closes)
            yield break;
        var all = NodaTime.Period.DaysBetween(opened, closes);
        var left = NodaTime.Period.DaysBetween(judgement.Year.Today, closes);
        if (left < all * judgement.Year.Thresholds.ClosingShare.Value)
            yield return $"The window closes soon, about {closes.ToString("d MMMM", System.Globalization.CultureInfo.InvariantCulture)}.";
    }
}
