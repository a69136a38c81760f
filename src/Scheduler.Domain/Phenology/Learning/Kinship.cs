namespace Scheduler.Domain.Phenology.Learning;

/// <summary>How near two plant kinds are, by name and family. Only what a botanical name tells, plus a family table.</summary>
public sealed class Kinship(IReadOnlyDictionary<string, string> familyByGenus)
{
    public static string Genus(string kind) => kind.Split(' ', 2)[0];

    /// <summary>Genus and species epithet, without the cultivar.</summary>
    public static string SpeciesOf(string kind)
    {
        var quote = kind.IndexOf('\'', StringComparison.Ordinal);
        return (quote < 0 ? kind : kind[..quote]).Trim();
    }

    public string? Family(string kind) => familyByGenus.GetValueOrDefault(Genus(kind));
}
