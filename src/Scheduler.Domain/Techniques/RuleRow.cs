namespace Scheduler.Domain.Techniques;

/// <summary>A line of the catalog that holds for some trees.</summary>
public interface IRuleRow
{
    AppliesTo For { get; }
}

/// <summary>Picks lines that hold for a tree.</summary>
internal static class RuleRow
{
    /// <summary>The first that fits; null: none does.</summary>
    public static T? FirstFor<T>(this IReadOnlyList<T> rows, TreeYear year) where T : class, IRuleRow
    {
        for (var index = 0; index < rows.Count; index++)
        {
            if (rows[index].For.Fits(year))
                return rows[index];
        }
        return null;
    }

    /// <summary>What every fitting line says.</summary>
    public static IReadOnlyList<TResult> AllFor<T, TResult>(this IReadOnlyList<T> rows, TreeYear year, Func<T, TResult> said) where T : IRuleRow
    {
        List<TResult>? all = null;
        for (var index = 0; index < rows.Count; index++)
        {
            if (rows[index].For.Fits(year))
                (all ??= new List<TResult>(rows.Count - index)).Add(said(rows[index]));
        }
        return all ?? (IReadOnlyList<TResult>)[];
    }
}
