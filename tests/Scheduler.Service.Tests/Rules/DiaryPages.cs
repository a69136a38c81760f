using System.Globalization;
using System.Text;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>The diary as a document: what changed on each day, in words. A reason that was told is not told again.</summary>
internal sealed class DiaryPages
{
    private const int SeasonDays = 91;
    private static readonly Verdict[] Told = [Verdict.DoNow, Verdict.Missed, Verdict.Ask];
    private readonly IReadOnlyList<Tree> _trees;
    private readonly StringBuilder _text = new();
    private readonly List<string> _today = [];
    private readonly Dictionary<(int Tree, string Technique), (Verdict Verdict, string? Hold, string? Question)> _last = [];
    private readonly HashSet<string> _told = [];
    private readonly SortedDictionary<string, List<(int Tree, TechniqueAdvice Advice)>> _care = new(StringComparer.Ordinal);
    private readonly SortedDictionary<string, int> _week = new(StringComparer.Ordinal);
    private readonly List<(string Text, List<string> Trees)> _shared = [];
    private string? _frost;
    private int _number;

    public DiaryPages(string place, IReadOnlyList<Tree> trees)
    {
        _trees = trees;
        Line($"# A year of advice: {place}");
        Line();
        Line("Everything here is invented: the place, its weather, the trees and the owner who follows the advice. A test replays the year and");
        Line("compares it with this file; run that test with the environment variable `DIARY_WRITE=1` to write it anew, and read what changed.");
        Line();
        Line("A day is counted from the first day of the growth year. On each day stand the phases that were seen, answers that changed,");
        Line("work that was done (at most three trees a day) and what earlier work made due. Watering, scouting and looks at wire");
        Line("are summed up by the week; frost protection stands where the trees change.");
        Line();
        Line("## The trees");
        Line();
        Line("| tree | species | stage | goals | size | health |");
        Line("|---|---|---|---|---|---|");
        foreach (var tree in trees)
        {
            Line($"| {tree.Name} | {tree.SpeciesId} | {Ids.Of(tree.Stage)} | {string.Join(", ", tree.Goals.Select(goal => Ids.Of(goal)))} | {Ids.Of(tree.Size)} | {Ids.Of(tree.Health)} |");
        }
        Line();
        Line("## The days");
    }

    public string Text() => _text.ToString();

    public void Begin(int number)
    {
        _number = number;
        _today.Clear();
        _shared.Clear();
        _care.Clear();
    }

    public void Phases(Species species, IReadOnlyList<int> codes) =>
        _today.Add($"Seen on {species.CommonName}: {string.Join(", ", codes.Select(code => $"{species.Phases.FirstOrDefault(phase => phase.Bbch == code)?.Id ?? "bloom over"} (BBCH {code:00})"))}.");

    public void Answers(int tree, IReadOnlyList<TechniqueAdvice> advice, LocalDate today, Func<IReadOnlyList<WorkWindow>> windows)
    {
        var name = _trees[tree].Name;
        foreach (var one in advice.Where(one => !DiaryGarden.IsCare(one.Technique)))
        {
            var key = (tree, one.Technique);
            // Root work asks one thing after the other while it is open.
            var question = one is { Verdict: Verdict.Ask, Technique: "repotting" } ? one.Reasons[0].Text : null;
            var now = (one.Verdict, one.Hold, question);
            var isFirst = !_last.TryGetValue(key, out var before);
            _last[key] = now;
            if (before == now && !isFirst || one.Verdict == Verdict.DoNow && !DiaryGarden.IsHandWork(one))
                continue;
            // A question is told once a tree; the owner answers it at the weekly look.
            if (one.Verdict == Verdict.Ask && !_told.Add($"ask {tree} {one.Technique} {question}"))
                continue;
            if (Told.Contains(one.Verdict))
                Share(name, $"{one.Technique}: {(isFirst ? "" : Ids.Of(before.Verdict) + " -> ")}**{Ids.Of(one.Verdict)}**{Why(tree, one)}");
            else if (one.Hold is not null)
                Share(name, $"{one.Technique}: **held** by {one.Hold}{(one.HeldUntil is { } until ? $" until {Date(until)}" : "")}.");
            else if (!isFirst && one.Verdict == Verdict.NotAllowed && before.Verdict is not (Verdict.Leave or Verdict.Missed))
                Share(name, $"{one.Technique}: {Ids.Of(before.Verdict)} -> not allowed{Why(tree, one)}");
        }
        Alone(tree, advice, today, windows);
    }

    public void Work(int tree, IReadOnlyList<WorkRecord> works)
    {
        var first = works[0];
        var parts = works.Where(work => work.CrownZone is not null || work.Branch is not null).Select(work => work.Branch ?? Ids.Of(work.CrownZone!.Value)).ToList();
        Share(_trees[tree].Name, $"done **{first.Technique}**{(first.Mode is { } mode ? $" ({mode})" : "")}{(parts.Count > 0 ? $" on {string.Join(", ", parts)}" : "")}"
            + $"{(first.LivingTopPercent is { } most ? $", {most:0} % of the leaves" : "")}.");
    }

    public void Care(int tree, TechniqueAdvice advice)
    {
        if (advice.Technique is "watering" or "scouting")
            _week[advice.Technique] = _week.GetValueOrDefault(advice.Technique) + 1;
        else if (_care.TryGetValue(advice.Technique, out var trees))
            trees.Add((tree, advice));
        else
            _care[advice.Technique] = [(tree, advice)];
    }

    public void WireLook() => _week["wire looked at"] = _week.GetValueOrDefault("wire looked at") + 1;

    public void Promises(int tree, IReadOnlyList<Promise> promises)
    {
        foreach (var due in promises.Where(promise => promise.State is PromiseState.Due or PromiseState.Overdue && promise.Kind != FollowUpKind.Rest))
        {
            if (_told.Add($"promise {due.Id}"))
                Share(_trees[tree].Name, $"due after {due.Work.Technique} of {Date(due.Work.Date)}: {due.Text}");
        }
    }

    public void End(LocalDate today)
    {
        // What is the same for several trees stands once.
        _today.AddRange(_shared.Select(one => $"{string.Join(", ", one.Trees)}: {one.Text}"));
        foreach (var (technique, trees) in _care)
        {
            // Nights that go on with the same trees are not told again.
            var names = Names(trees.Select(one => one.Tree).Order());
            if (technique == "frost-protection" && _frost == names)
                continue;
            if (technique == "frost-protection")
                _frost = names;
            foreach (var same in trees.OrderBy(one => one.Tree).GroupBy(one => one.Advice.AmountText))
                _today.Add($"{technique}: {Names(same.Select(one => one.Tree))}.{(same.Key is { } amount && _told.Add(technique + amount) ? " " + amount : "")}");
        }
        if (_number % 7 == 0 && _week.Count > 0)
        {
            _today.Add($"This week: {string.Join(", ", _week.Select(one => $"{one.Key} {one.Value} times"))}.");
            _week.Clear();
        }
        if (_today.Count == 0)
            return;
        Line();
        Line($"### Day {_number}, {Date(today)} {today.Year.ToString(CultureInfo.InvariantCulture)}");
        Line();
        foreach (var line in _today)
            Line("- " + line);
    }

    // Once a tree and season: nothing is open, and when the next hand work is likely, of this growth year or the next.
    private void Alone(int tree, IReadOnlyList<TechniqueAdvice> advice, LocalDate today, Func<IReadOnlyList<WorkWindow>> windows)
    {
        if (advice.Any(one => one.Verdict is Verdict.DoNow or Verdict.Ask && !DiaryGarden.IsCare(one.Technique)) || !_told.Add($"alone {tree} {(_number - 1) / SeasonDays}"))
            return;
        var next = windows().Where(window => window.State != WindowState.Done && window.Opens.Likely > today && !DiaryGarden.IsCare(window.Key.Technique))
            .MinBy(window => (window.Opens.Likely!.Value, window.Key.Technique));
        Share(_trees[tree].Name, $"leave it alone{(next is null ? ", no work is in sight" : $" until about {Date(next.Opens.Likely!.Value)} ({next.Key.Technique})")}.");
    }

    private string Why(int tree, TechniqueAdvice one)
    {
        var why = $": {one.Reasons[0].Text}";
        if (one.Verdict == Verdict.DoNow && one.AmountText is { } amount)
            why += $" How much: {amount}";
        if (one.Verdict == Verdict.Missed && one.Fallback is { } fallback)
            why += $" Instead: {fallback.Text}";
        return _told.Add($"{tree} {one.Technique} {why}") ? why : ", as before.";
    }

    private void Share(string tree, string text)
    {
        var same = _shared.Find(one => one.Text == text).Trees;
        if (same is null)
            _shared.Add((text, [tree]));
        else if (!same.Contains(tree))
            same.Add(tree);
    }

    private string Names(IEnumerable<int> trees)
    {
        var names = trees.Select(tree => _trees[tree].Name).ToList();
        return names.Count == _trees.Count ? "all trees" : string.Join(", ", names);
    }

    private static string Date(LocalDate date) => date.ToString("d MMMM", CultureInfo.InvariantCulture);

    private void Line(string line = "") => _text.Append(line).Append('\n');
}
