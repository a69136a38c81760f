namespace Scheduler.Service.Hindcast;

/// <summary>The options of the hindcast command: each names a file.</summary>
internal sealed record HindcastArguments(string Weather, string Sites, string Observations, string Asked, string Out)
{
    public const string Usage =
        """
        Usage: hindcast --weather F --sites F --observations F --asked F --out F
        Dates phases of past seasons without looking at what is asked. All files are comma-separated with a header:
          weather       site,date,tmin_c,tmax_c               temperatures [C]; empty where missing
          sites         site,lat,lon,elev_m
          observations  site,species,phase,year,date          to learn from
          asked         site,species,phase,year[,issued_on]   with issued_on only weather up to that day is used
          out           site,species,phase,year,issued_on,predicted_date,p10,p90
        """;

    private static readonly string[] Names = ["--weather", "--sites", "--observations", "--asked", "--out"];

    /// <summary>The arguments, or everything that is wrong with them.</summary>
    public static (HindcastArguments? Arguments, IReadOnlyList<string> Faults) Read(IReadOnlyList<string> args)
    {
        var given = new Dictionary<string, string>(StringComparer.Ordinal);
        var faults = new List<string>();
        for (var at = 0; at < args.Count; at++)
        {
            var (name, value) = args[at].Split('=', 2) is [var left, var right] ? (left, right) : (args[at], null);
            if (!Names.Contains(name))
            {
                faults.Add($"'{args[at]}' is not known here.");
                continue;
            }
            if (value is null && at + 1 < args.Count && !Names.Contains(args[at + 1]))
                value = args[++at];
            if (string.IsNullOrEmpty(value))
                faults.Add($"{name} has no file behind it.");
            else if (!given.TryAdd(name, value))
                faults.Add($"{name} is given twice.");
        }
        faults.AddRange(Names.Where(name => !given.ContainsKey(name) && !faults.Exists(fault => fault.StartsWith(name, StringComparison.Ordinal)))
            .Select(name => $"{name} is missing."));
        return faults.Count > 0
            ? (null, faults)
            : (new HindcastArguments(given["--weather"], given["--sites"], given["--observations"], given["--asked"], given["--out"]), faults);
    }
}
