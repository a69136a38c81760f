using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// The invented owner of the diary: notes a phase on the clock's likely day, and looks at every tree once a week with
/// eyes that follow the heat since growth began and since the last work.
/// </summary>
internal sealed class DiaryOwner(Func<LocalDate, LocalDate, double> heatCd)
{
    private static readonly string[] Cuts = ["tip-pinch", "early-clip", "cut-back", "outline-trim", "conifer-tips", "candle-pinch", "decandling"];
    private static readonly string[] LeafWork = ["leaf-thinning", "outer-leaf-removal", "partial-defoliation", "full-defoliation"];
    private readonly Dictionary<(string Species, int Bbch), LocalDate> _noted = [];

    public IEnumerable<SeenPhase> Phases(string species) =>
        _noted.Where(noted => noted.Key.Species == species).Select(noted => new SeenPhase(noted.Key.Bbch, noted.Value));

    public LocalDate? On(string species, int bbch) => _noted.TryGetValue((species, bbch), out var date) ? date : null;

    /// <summary>The codes that show for the first time today.</summary>
    public IReadOnlyList<int> Note(Species species, GrowthOutlook outlook, LocalDate today)
    {
        List<int> shown = [.. species.Phases.Select(phase => phase.Bbch).Append(69).Where(code => code > 0).Distinct().Order()
            .Where(code => On(species.Id, code) is null && outlook.Band(code).Likely <= today)];
        foreach (var code in shown)
            _noted[(species.Id, code)] = today;
        return shown;
    }

    /// <summary>The weekly look; null while the tree rests.</summary>
    public Observation? Look(Species species, Tree tree, int index, IReadOnlyList<WorkRecord> work, LocalDate today)
    {
        if (On(species.Id, 93) is not null || (On(species.Id, 11) ?? On(species.Id, 31)) is not { } started)
            return null;
        var heat = heatCd(started, today);
        LocalDate Last(string[] techniques) => work.Where(one => techniques.Contains(one.Technique) && one.Date > started).Select(one => one.Date).DefaultIfEmpty(started).Max();
        var sinceCut = heatCd(Last(Cuts), today);
        var sinceLeaves = heatCd(Last(LeafWork), today);
        var hardened = On(species.Id, 91) is not null;
        var isPine = species.Group is "PN1" or "PN2";
        var dense = (index % 4 == 0 ? 1 : 2) + (heat > 900 ? 1 : 0) - (sinceLeaves < heat && sinceLeaves < 400 ? 1 : 0);
        return new Observation
        {
            Id = new Guid(index + 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, (byte)(work.Count % 250)),
            Date = today,
            Density = Math.Min(3, dense),
            Hardened = hardened,
            LeafCount = species.IsConifer ? null : Math.Min(14, 2 + 2 * (int)(sinceCut / 60)),
            LeavesFullSize = species.IsConifer ? null : heat > 250,
            ShootCm = Math.Min(30, Math.Round(sinceCut / 40, 1)),
            PastOutlineCm = Math.Round(sinceCut / 150, 1),
            TipsMoving = !hardened || sinceLeaves < heat && sinceLeaves < 300,
            Soft = heat < 150,
            BaseFirm = heat > 120,
            SpringGrowthFirm = heat > 350,
            Candle = !isPine ? null : hardened ? "C4" : heat < 80 ? "C1" : heat < 180 ? "C2" : "C3",
            CandlesPerPoint = isPine ? 3 : null,
            ShootsPerPoint = 3,
            // One tree has greenfly for some weeks.
            PestSigns = tree.Name == "Apple 2" && heat is > 300 and < 600
        };
    }
}
