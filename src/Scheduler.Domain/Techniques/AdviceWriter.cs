using Scheduler.Domain.Techniques.Care;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques;

/// <summary>Puts a verdict into everything the owner needs: reasons, amount, how, cautions, what opens, what follows.</summary>
internal static class AdviceWriter
{
    public static TechniqueAdvice Of(IReadOnlyList<Judged> modes)
    {
        var first = modes.MinBy(judged => judged.Judgement.Verdict)!;
        var advice = Whole(first.Judgement);
        if (first.Parts.Count > 1 && advice.AmountText is not null)
            advice = advice with { Amount = PartWords.Entries(first), AmountText = PartWords.Amount(first) };
        var window = first.NextWindow;
        return advice with { Window = window, Cautions = [.. Closing(first.Judgement, window), .. advice.Cautions], Parts = [.. modes.SelectMany(Parts)] };
    }

    public static TechniqueAdvice Care(Technique technique, TreeYear year, CareFinding finding)
    {
        var whole = Whole(new Judgement { Technique = technique, Mode = technique.Modes[0], Year = year, Verdict = finding.Verdict, Reasons = finding.Reasons });
        return whole with
        {
            Opens = finding.Opens,
            Closes = finding.Closes,
            Amount = finding.Amount is { } amount ? [amount] : whole.Amount,
            AmountText = finding.AmountText ?? whole.AmountText,
            Cautions = [.. finding.Cautions, .. whole.Cautions],
            FollowUps = finding.HasFollowUps ? whole.FollowUps : []
        };
    }

    private static TechniqueAdvice Whole(Judgement judgement)
    {
        var (mode, year) = (judgement.Mode, judgement.Year);
        var part = Part(judgement);
        var isWork = IsWork(judgement.Verdict);
        return new TechniqueAdvice
        {
            Technique = judgement.Technique.Id,
            Verdict = part.Verdict,
            Reasons = part.Reasons,
            Amount = part.Amount,
            AmountText = part.AmountText,
            How = isWork ? WindowWriter.Texts(mode.How, year) : [],
            Cautions = isWork ? WindowWriter.Cautions(judgement) : [],
            Aftercare = isWork ? WindowWriter.Texts(mode.Aftercare, year) : [],
            Opens = part.Opens,
            Closes = part.Closes,
            Hold = part.Hold,
            HeldUntil = part.HeldUntil,
            BarredUntil = part.BarredUntil,
            Fallback = part.Fallback,
            FollowUps = part.FollowUps,
            Minutes = part.Minutes,
            Sessions = part.Sessions,
            People = isWork ? mode.Effort.People.GetValueOrDefault(year.Tree.Size) : null
        };
    }

    private static int? MinutesOf(Judgement judgement) =>
        judgement.Mode.Effort.Minutes.TryGetValue(judgement.Year.Tree.Size, out var minutes) ? minutes : null;

    // A tree without parts still says which of its zones are left alone.
    private static IEnumerable<PartAdvice> Parts(Judged judged)
    {
        if (judged.Parts.Count > 1 || judged.Judgement.Mode.Id is not null)
        {
            foreach (var part in judged.Parts)
                yield return Part(part);
        }
        var judgement = judged.Judgement;
        if (judged.Parts.Count > 1 || judgement.Technique.IsWholeTree || !IsWork(judgement.Verdict))
            yield break;
        foreach (var zone in Amounts.ZonesLeft(judgement))
        {
            yield return new PartAdvice
            {
                CrownZone = zone,
                Mode = judgement.Mode.Id,
                Verdict = Verdict.Leave,
                Reasons = [judgement.Year.Because(Judge.WeakAndInnerStay)],
                Amount = [new Dictionary<string, object> { ["crownZone"] = Ids.Of(zone), ["take"] = "none" }]
            };
        }
    }

    private static PartAdvice Part(Judgement judgement)
    {
        var (mode, year, verdict) = (judgement.Mode, judgement.Year, judgement.Verdict);
        var isWork = IsWork(verdict);
        var says = isWork || mode.IsStatement;
        return new PartAdvice
        {
            CrownZone = year.Part.CrownZone,
            Branch = year.Branch?.Id,
            Mode = mode.Id,
            Verdict = verdict,
            Reasons = judgement.Reasons,
            Amount = says || IsLeftAlone(judgement) ? Amounts.Entries(judgement) : [],
            AmountText = says ? Amounts.Text(judgement) : null,
            Opens = isWork ? Displayed.Opens(judgement) : null,
            Closes = isWork ? Displayed.Closes(judgement) : null,
            Hold = verdict == Verdict.Wait ? judgement.Held?.Hold : null,
            HeldUntil = verdict == Verdict.Wait ? judgement.Held?.Until : null,
            BarredUntil = judgement.BarredUntil,
            Fallback = isWork || verdict == Verdict.Missed ? FallbackOf(judgement) : null,
            FollowUps = FollowUps(judgement),
            Minutes = says ? MinutesOf(judgement) : null,
            Sessions = isWork ? mode.Effort.Sessions : null
        };
    }

    private static bool IsWork(Verdict verdict) => verdict is Verdict.DoNow or Verdict.Ask or Verdict.Wait;

    private static bool IsLeftAlone(Judgement judgement) => judgement is { Verdict: Verdict.Leave, Year.Part.IsWhole: false }
        && judgement.Reasons.Any(reason => reason.Id == Judge.WeakAndInnerStay);

    private static Fallback? FallbackOf(Judgement judgement) =>
        judgement.Mode.Fallbacks.FirstFor(judgement.Year) is { } rule
            ? new Fallback(rule.Techniques, rule.When, rule.Text)
            : null;

    private static IReadOnlyList<FollowUp> FollowUps(Judgement judgement)
    {
        List<FollowUp>? all = null;
        foreach (var rule in judgement.Mode.FollowUps)
        {
            if (rule.On.Contains(judgement.Verdict) && rule.For.Fits(judgement.Year))
                (all ??= []).Add(new FollowUp(rule.What, rule.When, rule.Technique, rule.Text));
        }
        return all ?? (IReadOnlyList<FollowUp>)[];
    }

    // Less than a fifth of the time from opening to likely closing is left.
    private static IEnumerable<string> Closing(Judgement judgement, WorkWindow? window)
    {
        if (judgement.Verdict != Verdict.DoNow || window is not { Opens.Likely: { } opened, Closes.Likely: { } closes })
            yield break;
        var all = NodaTime.Period.DaysBetween(opened, closes);
        var left = NodaTime.Period.DaysBetween(judgement.Year.Today, closes);
        if (left < all * judgement.Year.Thresholds.ClosingShare.Value)
            yield return $"The window closes soon, about {closes.ToString("d MMMM", System.Globalization.CultureInfo.InvariantCulture)}.";
    }
}
