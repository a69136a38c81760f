using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>How much warmer than the open bench a night is where the tree stands [C].</summary>
internal static class Shelter
{
    public static double WarmerC(TreeYear year) => year.Tree.Placement switch
    {
        Placement.Sheltered => year.Thresholds.ShelteredWarmerC.Value,
        Placement.ColdFrame => year.Thresholds.ColdFrameWarmerC.Value,
        _ => 0
    };
}
