using NodaTime;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// The jobs that take leaves, and how dense the crown is for them: a score counts only until leaves are taken.
/// </summary>
internal static class LeafWork
{
    public static readonly string[] Jobs = ["outer-leaf-removal", "leaf-thinning", "partial-defoliation", "full-defoliation"];

    /// <summary>Density of the crown as it is now (0-3); null: not scored since leaves were last taken, or are about to be.</summary>
    public static int? DensityNow(TreeYear year)
    {
        if (year.Seen.Density is not { } density || Situation.Holds("thinning-first", year))
            return null;
        LocalDate? taken = null;
        foreach (var work in year.Log.ThisYear)
        {
            if (Jobs.Contains(work.Technique))
                taken = work.Date;
        }
        return year.Seen.DensityOn <= taken ? null : density;
    }
}
