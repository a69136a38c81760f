using System.Diagnostics;
using System.Text;
using System.Text.Json;

namespace Scheduler.Service.Tests.Feeds;

/// <summary>One of the programs in <c>tests/readers</c> that read a feed with a library of others.</summary>
internal sealed class Reader(string name, string program, string[] leading, string[]? probe)
{
    private static readonly string Folder = FindFolder();

    // Debian's Python, because Debian's packages are read with.
    private static readonly Reader[] All =
    [
        new("python3-icalendar", "/usr/bin/python3", ["read_icalendar.py"], ["-c", "import icalendar"]),
        new("python3-vobject", "/usr/bin/python3", ["read_vobject.py"], ["-c", "import vobject"]),
        new("libical", "build/read_libical", [], null),
        new("ical.js", "node", ["read_icaljs.mjs"], ["--input-type=module", "-e", "import 'ical.js'"]),
        new("khal with vdirsyncer", "bash", ["subscribe"], ["-c", "khal --version && vdirsyncer --version"])
    ];

    private readonly Lazy<bool> _present = new(() => probe is null
        ? File.Exists(Path.Combine(Folder, program))
        : Run(program, probe).ExitCode == 0);

    public static Reader Named(string name) => All.Single(reader => reader.Name == name);

    public string Name => name;

    public bool IsPresent => _present.Value;

    public JsonElement Read(params string[] arguments)
    {
        var (exitCode, output, errors) = Run(program, [.. leading, .. arguments]);
        Assert.True(exitCode == 0, $"{name} failed ({exitCode}): {errors}");
        return JsonDocument.Parse(output).RootElement;
    }

    /// <summary>Reads a calendar from its bytes.</summary>
    public JsonElement Read(byte[] calendar)
    {
        var file = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(file, calendar);
            return Read(file);
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static (int ExitCode, string Output, string Errors) Run(string program, string[] arguments)
    {
        var path = program.Contains('/', StringComparison.Ordinal) ? Path.Combine(Folder, program) : program;
        var start = new ProcessStartInfo(path, arguments)
        {
            WorkingDirectory = Folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = Encoding.UTF8
        };
        start.Environment["PYTHONIOENCODING"] = "utf-8";
        try
        {
            using var process = Process.Start(start)!;
            var errors = process.StandardError.ReadToEndAsync();
            var output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return (process.ExitCode, output, errors.Result);
        }
        catch (System.ComponentModel.Win32Exception missing)
        {
            return (-1, "", missing.Message);
        }
    }

    private static string FindFolder()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Scheduler.sln")))
            folder = folder.Parent;
        return Path.Combine(folder?.FullName ?? throw new InvalidOperationException("The tests run outside the repository."), "tests", "readers");
    }
}

/// <summary>A test that needs a reader: skipped with a word where it is missing, but never where <c>CI=true</c>.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class ReaderFactAttribute : FactAttribute
{
    public ReaderFactAttribute(string reader)
    {
        if (Environment.GetEnvironmentVariable("CI") != "true" && !Reader.Named(reader).IsPresent)
            Skip = $"{reader} is missing; tests/readers/install brings it.";
    }
}
