namespace Scheduler.Service.Tests.Weather.Support;

/// <summary>Answers of real weather services, kept beside the repository in ../shared/weather/recorded (their README names each origin).</summary>
internal static class RecordedAnswers
{
    public const string Absent = "../shared/weather/recorded is absent: not tested against recorded answers";

    public static readonly string? Folder = Find();

    public static string Read(string file) => File.ReadAllText(Path.Combine(Folder!, file));

    private static string? Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            var path = Path.Combine(folder.FullName, "shared", "weather", "recorded");
            if (Directory.Exists(path))
                return path;
        }
        return null;
    }
}

/// <summary>A test that needs the recorded answers and says so where they are absent.</summary>
internal sealed class RecordedFactAttribute : FactAttribute
{
    public RecordedFactAttribute() => Skip = RecordedAnswers.Folder is null ? RecordedAnswers.Absent : null;
}

internal sealed class RecordedTheoryAttribute : TheoryAttribute
{
    public RecordedTheoryAttribute() => Skip = RecordedAnswers.Folder is null ? RecordedAnswers.Absent : null;
}
