using Scheduler.Domain.Phenology.Learning;
using Scheduler.Service.Hindcast;

namespace Scheduler.Benchmarks.Skill;

/// <summary>One folder of observed dates with daily temperatures, read as the hindcast command reads its files.</summary>
internal sealed record Dataset(string Name, IReadOnlyDictionary<string, SiteHistory> Sites, IReadOnlyList<PhaseDate> Dates, IReadOnlyList<PhaseDate> AutumnDates)
{
    /// <summary>The six whose mean the guide names.</summary>
    public static readonly IReadOnlyList<string> Six =
        ["cherry_bloom", "harvard_forest", "hubbard_brook", "fruit_trees", "phenocam_deciduous", "arnold_arboretum"];

    public static readonly IReadOnlyList<string> All = [.. Six, "east_asia", "grapevine_europe"];

    /// <summary>Plots of one forest, or cameras of one continent: a year is left out for all of them together.</summary>
    public bool SitesShareYears => Name is "hubbard_brook" or "phenocam_deciduous";

    /// <summary>One place with many species: "somewhere new" means a new species there.</summary>
    public bool IsOnePlace => Sites.Count == 1;

    /// <summary>Every place has cultivars of its own.</summary>
    public bool KindsAreCultivars => Name is "fruit_trees";

    public static Dataset Read(string folder, string name)
    {
        var faults = new InputFaults();
        var (weather, sites, dates, autumn) = (File("weather"), File("sites"), File("observations"), File("autumn_observations"));
        var latitudes = HindcastReader.Latitudes(sites, faults);
        var histories = HindcastReader.Weather(weather, latitudes, sites, faults);
        var seen = HindcastReader.Observations(dates, latitudes, sites, faults).Dates;
        var autumns = System.IO.File.Exists(autumn) ? HindcastReader.Observations(autumn, latitudes, sites, faults).Dates : [];
        if (faults.All.Count > 0)
            throw new InvalidDataException(string.Join(Environment.NewLine, faults.All));
        return new Dataset(name, histories, [.. seen.Where(date => histories[date.Site].Knows(date.Year, date.Day))], autumns);

        string File(string part) => Path.Combine(folder, name, part + ".csv");
    }
}
