namespace Scheduler.Service.Catalog.Checks;

/// <summary>A place in a technique file.</summary>
internal sealed record Place(string Technique, string Key);

/// <summary>Gathers findings and gives places their file and line.</summary>
internal sealed class FindingBook
{
    private readonly Dictionary<string, YamlMap> _files = new(StringComparer.Ordinal);
    private readonly List<CatalogFault> _contradictions = [];
    private readonly List<CatalogFault> _deadRules = [];

    public FindingBook(IReadOnlyList<YamlMap> files)
    {
        foreach (var file in files)
            _files[file.Text("id")] = file;
    }

    public IReadOnlyList<CatalogFault> Contradictions => _contradictions;
    public IReadOnlyList<CatalogFault> DeadRules => _deadRules;

    public void Contradiction(Place rule, string problem, Place other, string remedy) => _contradictions.Add(Fault(rule, problem, other, remedy));

    public void DeadRule(Place rule, string problem, Place? other, string remedy) => _deadRules.Add(Fault(rule, problem, other, remedy));

    private CatalogFault Fault(Place rule, string problem, Place? other, string remedy)
    {
        var file = _files[rule.Technique];
        return new CatalogFault(file.File, file.LineAt(rule.Key), rule.Key, null, other is null ? problem : $"{problem} ({Where(other)})", remedy);
    }

    private string Where(Place place)
    {
        var file = _files[place.Technique];
        return $"{file.File}:{file.LineAt(place.Key)} {place.Key}";
    }
}
