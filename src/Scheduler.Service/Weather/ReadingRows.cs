using NodaTime;
using Scheduler.Domain.Weather;

namespace Scheduler.Service.Weather;

/// <summary>A line of readings that was not taken; lines count from 1, in CSV with the header.</summary>
public sealed record RejectedLine(int Line, string Reason);

/// <summary>The rows of one upload: the good ones kept, the bad ones named.</summary>
internal sealed class ReadingRows(LocalDate today)
{
    private const double ColdestC = -60;
    private const double HottestC = 55;
    private static readonly LocalDate Earliest = new(1850, 1, 1);

    private readonly Dictionary<LocalDate, DailyTemperature> _byDate = [];
    private readonly List<RejectedLine> _rejected = [];

    /// <summary>How many lines were good, also where a later line gave the same date again.</summary>
    public int Accepted { get; private set; }

    public IReadOnlyList<RejectedLine> Rejected => _rejected;

    /// <summary>Of a repeated date the last line counts.</summary>
    public IReadOnlyCollection<DailyTemperature> Readings => _byDate.Values;

    public void Reject(int line, string reason) => _rejected.Add(new RejectedLine(line, reason));

    /// <summary>Null stands for what could not be read.</summary>
    public void Add(int line, LocalDate? date, double? minC, double? maxC)
    {
        if (Fault(date, minC, maxC) is { } fault)
        {
            Reject(line, fault);
            return;
        }
        Accepted++;
        _byDate[date!.Value] = new DailyTemperature(date.Value, minC!.Value, maxC!.Value);
    }

    private string? Fault(LocalDate? date, double? minC, double? maxC)
    {
        if (date is not { } day)
            return "The date must be a day such as 2026-04-30.";
        if (day > today)
            return "The date is in the future.";
        if (day < Earliest)
            return $"The date is before {Earliest.Year}.";
        if (minC is not { } min)
            return "The minimum must be a number in °C.";
        if (maxC is not { } max)
            return "The maximum must be a number in °C.";
        if (!(min is >= ColdestC and <= HottestC && max is >= ColdestC and <= HottestC))
            return $"Temperatures must lie between {ColdestC} and {HottestC} °C.";
        return min > max ? "The minimum is above the maximum." : null;
    }
}
