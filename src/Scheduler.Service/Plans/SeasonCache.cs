using System.Collections.Concurrent;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Service.Plans;

/// <summary>The growth year today belongs to and the one after it, as ensembles, and the past springs the clock learns from.</summary>
public sealed record SiteSeasons(SeasonEnsemble Current, SeasonEnsemble Next, SiteSprings Springs)
{
    public static SiteSeasons Build(SiteWeather site)
    {
        var current = SeasonEnsemble.Build(site, site.CurrentYear);
        return new SiteSeasons(current, current.Following(), new SiteSprings(current));
    }
}

/// <summary>
/// Keeps the ensembles of each garden until its weather or its day changes: logging work or renaming a tree must not
/// add up thirty years again.
/// </summary>
public sealed class SeasonCache
{
    private const int MostGardens = 500;
    private readonly ConcurrentDictionary<Guid, (string Print, SiteSeasons Seasons)> _kept = new();

    public SiteSeasons Of(Guid gardenId, SiteWeather site)
    {
        var print = Print(site);
        if (_kept.TryGetValue(gardenId, out var kept) && kept.Print == print)
            return kept.Seasons;
        if (_kept.Count >= MostGardens)
            _kept.Clear();
        var seasons = SiteSeasons.Build(site);
        _kept[gardenId] = (print, seasons);
        return seasons;
    }

    /// <summary>What was last built for a garden, be its weather of today or of yesterday.</summary>
    public SiteSeasons? Kept(Guid gardenId) => _kept.TryGetValue(gardenId, out var kept) ? kept.Seasons : null;

    private static string Print(SiteWeather site)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(MemoryMarshal.AsBytes(site.Days.MinC));
        hash.AppendData(MemoryMarshal.AsBytes(site.Days.MaxC));
        return $"{site.Latitude:R} {site.Today:R} {site.Days.Start:R} {Convert.ToHexString(hash.GetHashAndReset())}";
    }
}
