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
        return advice with { Window = first.NextWindow, Parts = [.. modes.SelectMany(Parts)] };
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
            Cautions = [.. finding.Cautions, .. whole.Cautions]
        };
    }

    private static TechniqueAdvice Whole(Judgement judgement)
    {
        var (mode, year, verdict) = (judgement.Mode, judgement.Year, judgement.Verdict);
        var isWork = IsWork(verdict);
        return new TechniqueAdvice
        {
            Technique = judgement.Technique.Id,
            Verdict = verdict,
            Reasons = judgement.Reasons,
            Amount = isWork || mode.IsStatement || IsLeftAlone(judgement) ? Amounts.Entries(judgement) : [],
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

    // A tree without parts still says which of its zones are left alone.
    private static IEnumerable<PartAdvice> Parts(Judged judged)
    {
        if (judged.Parts.Count > 1 || judged.Judgement.Mode.Id is not null)
        {
            foreach (var part in judged.Parts)
                yield return Part(part);
        }
        var judgement = judged.Judgement;
        if (judged.Parts.Count > 1 || TreePart.IsWholeTreeWork(judgement.Technique.Id) || !IsWork(judgement.Verdict))
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
        var whole = Whole(judgement);
        var part = judgement.Year.Part;
        return new PartAdvice
        {
            CrownZone = part.CrownZone,
            Branch = part.Branch?.Id,
            Mode = judgement.Mode.Id,
            Verdict = whole.Verdict,
            Reasons = whole.Reasons,
            Amount = whole.Amount,
            AmountText = whole.AmountText,
            Opens = whole.Opens,
            Closes = whole.Closes,
            Hold = whole.Hold,
            HeldUntil = whole.HeldUntil,
            BarredUntil = whole.BarredUntil,
            Fallback = whole.Fallback,
            FollowUps = whole.FollowUps,
            Minutes = whole.Minutes,
            Sessions = whole.Sessions
        };
    }

    private static bool IsWork(Verdict verdict) => verdict is Verdict.DoNow or Verdict.Ask or Verdict.Wait;

    private static bool IsLeftAlone(Judgement judgement) => judgement.Reasons.Any(reason => reason.Id == Judge.WeakAndInnerStay);

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
        var days = Passes.Of(judgement, judgement.Visits.Count + 1) is { Count: > 0 } passes ? passes[^1] : null;
        if (days is null || days.OpensBand(judgement.Year.Year).Likely is not { } opened || days.ClosesBand(judgement.Year.Year).Likely is not { } closes)
            yield break;
        var all = NodaTime.Period.DaysBetween(opened, closes);
        var left = NodaTime.Period.DaysBetween(judgement.Year.Today, closes);
        if (left < all * judgement.Year.Thresholds.ClosingShare.Value)
            yield return $"The window closes soon, about {closes.ToString("d MMMM", System.Globalization.CultureInfo.InvariantCulture)}.";
    }
}
