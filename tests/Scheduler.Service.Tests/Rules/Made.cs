using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>One invented tree in an invented year-round climate, on a day given for the north and moved half a year in the south.</summary>
internal sealed record Made(Tree Tree, double Latitude, LocalDate NorthernDay)
{
    // From 1 September to 1 March: the days by which the southern axis lies later.
    private const int HalfAYear = 181;

    public IReadOnlyList<WorkRecord> Work { get; init; } = [];
    public IReadOnlyList<Observation> Seen { get; init; } = [];
    public double MeanC { get; init; } = 10;
    public double AmplitudeC { get; init; } = 10;
    public Func<GardenFacts, GardenFacts> Garden { get; init; } = garden => garden;

    public LocalDate Today => Latitude < 0 ? NorthernDay.PlusDays(HalfAYear) : NorthernDay;

    public LocalDate DaysAgo(int days) => Today.PlusDays(-days);

    public Made Logged(string technique, int daysAgo, string? mode = null, Func<WorkRecord, WorkRecord>? more = null)
    {
        var work = Trees.Work(technique, DaysAgo(daysAgo)) with { Mode = mode };
        return this with { Work = [.. Work, more?.Invoke(work) ?? work] };
    }

    public Made Noted(Func<Observation, Observation> what, int daysAgo = 0) => this with { Seen = [.. Seen, what(Trees.Seen(DaysAgo(daysAgo)))] };

    public TechniqueAdvice Advice(string technique) => Advisor.Advise(Trees.Craft, Facts(), Bench()).Advice(technique);

    /// <summary>The answer of a mode; of its zones the one that is farthest.</summary>
    public PartAdvice Advice(string technique, string mode) => Advice(technique).Parts.Where(part => part.Mode == mode).MinBy(part => part.Verdict)!;

    public WindowSet Windows() => WindowFinder.Find(Trees.Craft, Facts(), Bench());

    private MadeClimate Climate => new(Latitude, Today) { MeanC = MeanC, AmplitudeC = AmplitudeC };

    private TreeFacts Facts() => Trees.Facts(Tree, Climate.Site(), Work, Seen);

    private GardenFacts Bench() => Garden(Climate.Garden());
}
