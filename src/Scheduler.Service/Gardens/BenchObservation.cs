using NodaTime;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Gardens;

/// <summary>What the owner reported of the benches of a garden on one day. A field left out was not looked at.</summary>
public sealed record BenchObservation
{
    public required Guid Id { get; init; }
    public required LocalDate Date { get; init; }
    /// <summary>The root balls are dry.</summary>
    public bool? SoilDry { get; init; }
    /// <summary>Wood is frozen through.</summary>
    public bool? WoodFrozen { get; init; }
    /// <summary>Temperature of the root balls [C].</summary>
    public double? RootBallC { get; init; }
    /// <summary>Coldest of the winter room [C].</summary>
    public double? RoomMinC { get; init; }
    /// <summary>Warmest of the winter room [C].</summary>
    public double? RoomMaxC { get; init; }
    public string? Notes { get; init; }

    internal static BenchObservation Read(FieldReader fields, LocalDate today)
    {
        var seen = new BenchObservation
        {
            Id = NewId.Next(),
            Date = fields.Required("date", null, value => value.Date(Earliest, today)),
            SoilDry = fields.Optional("soilDry", null, value => value.Flag()),
            WoodFrozen = fields.Optional("woodFrozen", null, value => value.Flag()),
            RootBallC = fields.Optional("rootBallC", null, value => value.Number(-40, 60, "°C")),
            RoomMinC = fields.Optional("roomMinC", null, value => value.Number(-40, 60, "°C")),
            RoomMaxC = fields.Optional("roomMaxC", null, value => value.Number(-40, 60, "°C")),
            Notes = fields.Optional("notes", null, value => value.Text(2000, lines: true))
        };
        if (!fields.Faults.Any && seen == new BenchObservation { Id = seen.Id, Date = seen.Date })
            fields.Fault("soilDry", "is missing like all the rest: report at least one thing besides the date.", new FaultKind("nothing-said"));
        if (seen.RoomMinC > seen.RoomMaxC)
            fields.Fault("roomMinC", $"is above roomMaxC: swap the two.", new FaultKind("swapped"));
        return seen;
    }

    /// <summary>Owners may log old notebooks; nothing before this is plausible for a living tree's log.</summary>
    internal static readonly LocalDate Earliest = new(1800, 1, 1);
}

/// <summary>What may be sent of the benches: the date and at least one thing seen.</summary>
public sealed record BenchObservationRequest(
    LocalDate Date, bool? SoilDry, bool? WoodFrozen, double? RootBallC, double? RoomMinC, double? RoomMaxC, string? Notes);
