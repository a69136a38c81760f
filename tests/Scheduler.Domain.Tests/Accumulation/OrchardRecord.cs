using Scheduler.Domain.Tests.PublishedValues;

namespace Scheduler.Domain.Tests.Accumulation;

/// <summary>One orchard's hours and what the three chill models make of them; each model's test reads its own lines.</summary>
public static class OrchardRecord
{
    public static TheoryData<PublishedRow> Checks(string measure) =>
        [.. PublishedTable.Rows("chill-record-checks.csv").Where(row => row.Text("measure") == measure)];

    public static double[] FirstHoursC(PublishedRow check) =>
        [.. PublishedTable.Rows("chill-record-hours.csv").Select(hour => hour.Number("temperature_c")).Take(check.Whole("hour"))];
}
