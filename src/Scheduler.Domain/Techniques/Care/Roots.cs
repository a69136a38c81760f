using Scheduler.Domain.Accumulation;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>
/// What cold a tree bears where it stands. In a pot the roots decide, and they bear far less than the top; the zones of a
/// species are for plants in the ground.
/// </summary>
internal sealed class Roots(StorageRules rules, TreeYear year)
{
    /// <summary>Root ball temperature that kills [C]: of young roots after root work or while the trunk is built, else of mature ones.</summary>
    public double KillC
    {
        get
        {
            var hardiness = year.Species.Hardiness;
            if (!AreYoung)
                return hardiness.RootKillC.Value;
            return hardiness.YoungRootKillC?.Value ?? hardiness.RootKillC.Value + rules.YoungRootsC.Value;
        }
    }

    public bool AreYoung => year.RootWork is Extent.Normal or Extent.Hard || year.Log.RootWork(1) is Extent.Hard || year.Tree.Stage == TreeStage.TrunkBuilding;

    /// <summary>Root ball above the minimum of the open bench, where the tree stands [C].</summary>
    public double BallAboveBenchC => rules.BallWarmerC[year.Tree.Size].Value + Shelter.WarmerC(year);

    /// <summary>Bench minimum at which the tree comes in [C]: the roots', or that of a tender top, whichever is higher.</summary>
    public double InAtBenchC => Math.Max(KillC + rules.InMarginC.Value - BallAboveBenchC, TopAtBenchC ?? double.NegativeInfinity);

    /// <summary>The last call: the margin is nearly used up [C].</summary>
    public double LastCallAtBenchC => InAtBenchC - (rules.InMarginC.Value - rules.LastCallMarginC.Value);

    /// <summary>Why the place is too cold for it in winter; null: it is not, or the place's zone is not known.</summary>
    public Reason? TooColdHere
    {
        get
        {
            if (year.Garden.Zone is not { } zone || year.IsIndoors)
                return null;
            var species = year.Species;
            if (HardinessZone.TryParse(species.Hardiness.ColdestZone, out var coldest) && zone < coldest)
                return year.Because("not-hardy-here", $"{species.CommonName} cannot stay outside here in winter: it is hardy to zone {coldest}, this place is {zone}.");
            var ballC = zone.LowC + BallAboveBenchC;
            return ballC <= KillC
                ? year.Because("roots-not-hardy-here", $"In the ground it would bear zone {zone}; in a pot its roots die at about {Degrees(KillC)} and the ball may fall to {Degrees(ballC)} here.")
                : null;
        }
    }

    private double? TopAtBenchC => year.Group.GrowsWheneverWarm
        ? Math.Max(rules.WarmClimateC.Value, year.Species.Hardiness.KeepAboveC?.Value ?? double.NegativeInfinity)
        : year.Species.Hardiness.KeepAboveC?.Value - Shelter.WarmerC(year);

    private static string Degrees(double valueC) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{valueC:0.#} C");
}
