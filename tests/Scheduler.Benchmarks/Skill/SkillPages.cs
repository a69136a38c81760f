using System.Globalization;

namespace Scheduler.Benchmarks.Skill;

/// <summary>The parts of the skill table.</summary>
internal sealed class SkillPages(TextWriter output)
{
    public void KnownWeather(IReadOnlyList<SeasonResult> results)
    {
        Head("Whole season's weather known", "records", "dates", "block", "later", "calendar, block", "calendar, later", "share of the calendar's error, block / later", "inside, block / later");
        var rows = results.Where(one => one.Lead is null).GroupBy(one => one.Dataset).Select(one => (one.Key, Block: Of(one, "block"), Later: Of(one, "later"))).ToList();
        foreach (var (name, block, later) in rows)
            Row(name, $"{block.Count}", F2(block.Mae), F2(later.Mae), F2(block.Calendar), F2(later.Calendar), $"{F2(block.Share)} / {F2(later.Share)}", $"{F2(block.Coverage)} / {F2(later.Coverage)}");
        var six = rows.Where(row => Dataset.Six.Contains(row.Key)).ToList();
        if (six.Count == Dataset.Six.Count)
        {
            Row("mean of the first six", "", F2(six.Average(row => row.Block.Mae)), F2(six.Average(row => row.Later.Mae)),
                F2(six.Average(row => row.Block.Calendar)), F2(six.Average(row => row.Later.Calendar)), "", "");
        }
    }

    public void Leads(IReadOnlyList<SeasonResult> results)
    {
        Head("Issued 7 / 14 / 30 days before the usual date", "records", "years", "error", "calendar", "inside", "width");
        foreach (var group in results.Where(one => one.Lead is not null).GroupBy(one => (one.Dataset, one.Scheme)))
        {
            var leads = group.GroupBy(one => one.Lead).OrderBy(one => one.Key).Select(one => Figures.Of([.. one.Select(row => row.Judged)])).ToList();
            Row(group.Key.Dataset, group.Key.Scheme, Join(leads, one => F1(one.Mae)), Join(leads, one => F1(one.Calendar)), Join(leads, one => F2(one.Coverage)), Join(leads, one => F1(one.Width)));
        }
    }

    public void Places(IReadOnlyList<SeasonResult> results)
    {
        Head("Every place, and every species of East Asia and at each of its places, against the calendar", "records", "place or species", "dates", "block", "calendar", "later", "calendar", "worse than the calendar");
        var known = results.Where(one => one.Lead is null).ToList();
        var places = known.GroupBy(one => (one.Dataset, Name: one.Judged.Seen.Site))
            .Concat(known.Where(one => one.Dataset == "east_asia").GroupBy(one => (one.Dataset, Name: one.Judged.Seen.Kind)))
            .Concat(known.Where(one => one.Dataset == "east_asia").GroupBy(one => (one.Dataset, Name: $"{one.Judged.Seen.Site} {one.Judged.Seen.Kind}")));
        foreach (var place in places)
        {
            Figures block = Of(place, "block");
            var later = place.Any(one => one.Scheme == "later") ? Of(place, "later") : null;
            var worse = new[] { block.Share > 1 ? "block" : null, later?.Share > 1 ? "later" : null }.OfType<string>();
            Row(place.Key.Dataset, place.Key.Name, $"{block.Count}", F2(block.Mae), F2(block.Calendar), later is null ? "" : F2(later.Mae), later is null ? "" : F2(later.Calendar), string.Join(", ", worse));
        }
    }

    public void OwnSprings(IReadOnlyList<OwnSpringsResult> rows, IReadOnlyList<OwnSpringsResult> besides)
    {
        Head("Own springs known", ["records", "new is a", .. NewPlaces.OwnSprings.Select(own => $"{own}")]);
        Newcomers(rows);
        Row(["mean (in brackets the calendar of the own springs)", "", .. rows.GroupBy(row => row.Own).Select(own =>
            $"{F2(own.Where(row => row.Figures is not null).Average(row => row.Figures!.Mae))} ({F1(own.Where(row => row.Figures is not null).Average(row => row.Figures!.Calendar))})")]);
        Newcomers(besides);
    }

    private void Newcomers(IEnumerable<OwnSpringsResult> rows)
    {
        foreach (var data in rows.GroupBy(row => (row.Dataset, row.Newcomer)))
            Row([data.Key.Dataset, $"{data.Key.Newcomer}".ToLowerInvariant(), .. data.Select(row => row.Figures is { } one ? $"{F1(one.Mae)} ({F1(one.Calendar)})" : "")]);
    }

    public void Given(IReadOnlyList<(string Dataset, string Later, Figures Plain, Figures Given)> rows)
    {
        Head("A later phase, given that spring's earlier one (block)", "records", "phase", "dates", "not given", "given", "inside");
        foreach (var (dataset, later, plain, given) in rows)
            Row(dataset, later, $"{given.Count}", F2(plain.Mae), F2(given.Mae), F2(given.Coverage));
    }

    public void Autumn(IReadOnlyList<(string Dataset, string Scheme, Figures Figures)> rows)
    {
        Head("Leaf color", "records", "years", "dates", "error", "calendar", "inside");
        foreach (var (dataset, scheme, figures) in rows)
            Row(dataset, scheme, $"{figures.Count}", F2(figures.Mae), F2(figures.Calendar), F2(figures.Coverage));
    }

    private void Head(string title, params IReadOnlyList<string> columns)
    {
        output.WriteLine($"\n### {title}\n");
        Row([.. columns]);
        Row([.. columns.Select(_ => "---")]);
    }

    private void Row(params IReadOnlyList<string> cells) => output.WriteLine($"| {string.Join(" | ", cells)} |");

    private static Figures Of(IEnumerable<SeasonResult> results, string scheme) =>
        Figures.Of([.. results.Where(one => one.Scheme == scheme).Select(one => one.Judged)]);

    private static string Join(IEnumerable<Figures> leads, Func<Figures, string> text) => string.Join(" / ", leads.Select(text));

    private static string F1(double value) => double.IsNaN(value) ? "-" : value.ToString("f1", CultureInfo.InvariantCulture);

    private static string F2(double value) => double.IsNaN(value) ? "-" : value.ToString("f2", CultureInfo.InvariantCulture);
}
