using System.Reflection;
using System.Text.RegularExpressions;

namespace Scheduler.Service.Storage;

/// <summary>Names of all tables, in the order of the migrations that make them: a table can refer only to earlier ones.</summary>
internal static partial class Tables
{
    public static IReadOnlyList<string> InOrder { get; } = [.. Database.Migrations.SelectMany(NamesIn)];

    private static IEnumerable<string> NamesIn(string migration)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(migration)!;
        using var reader = new StreamReader(stream);
        return [.. Create().Matches(reader.ReadToEnd()).Select(match => match.Groups[1].Value)];
    }

    [GeneratedRegex(@"^CREATE TABLE (\w+)", RegexOptions.Multiline)]
    private static partial Regex Create();
}
