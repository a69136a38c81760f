using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Planning;
using Scheduler.Domain.Techniques;

namespace Scheduler.Domain.Tests.Planning;

public class DayOrderTests
{
    private static readonly LocalDate Day = new(2026, 5, 2);
    private static readonly Figure Any = new(14, Provenance.Estimate);

    internal static readonly PlanningRules Rules = new()
    {
        HorizonDays = Any, MovingPercent = Any, UnknownMinutes = Any, LearnFromSessions = Any, LearnLastSessions = Any, WorthNone = Any, WorthLight = Any,
        WorthMedium = Any, WorthHeavy = Any, WorthCare = Any, NextVisitPercent = Any, ClosingDays = Any, ClosingPercent = Any, WetDayMm = Any, HeavyFrostC = Any, HeavyHeatC = Any, HeavyLookDays = Any,
        CalmUrgentDays = Of(3), CalmAheadPercent = Of(20), CalmBandPercent = Of(50), CalmMostDays = Of(7),
        Order =
        [
            new("look", ["scouting", "wiring/check"]), new("shoots", ["tip-pinch"]), new("leaves", ["leaf-thinning"]), new("wire-on", ["wiring"]),
            new("water", ["frost-protection"])
        ],
        RootSteps = [], LeafSteps = ["leaves"], WoundSteps = [], CareWork = ["frost-protection"]
    };

    [Fact]
    public void WorkOnOneTree_GoesFromLookingToWire()
    {
        var tree = Guid.NewGuid();
        var order = Order(Visit(tree, "wiring", 60, "apply"), Visit(tree, "leaf-thinning", 60), Visit(tree, "tip-pinch", 60), Visit(tree, "wiring", 60, "check"));
        Assert.Equal(["wiring/check", "tip-pinch/", "leaf-thinning/", "wiring/apply"], order);
    }

    [Fact]
    public void Trees_ClosingWindowsThenCareThenHeavyThenTheRest()
    {
        var order = Order(
            Visit(Guid.NewGuid(), "tip-pinch", 60), Visit(Guid.NewGuid(), "wiring", 60, isHeavy: true), Visit(Guid.NewGuid(), "frost-protection", 60),
            Visit(Guid.NewGuid(), "leaf-thinning", 5));
        Assert.Equal(["leaf-thinning/", "frost-protection/", "wiring/", "tip-pinch/"], order);
    }

    private static Figure Of(double value) => new(value, Provenance.Estimate);

    private static IEnumerable<string> Order(params WorkVisit[] visits) =>
        new DayOrder(Rules).Of(Day, visits).Select(visit => $"{visit.Window.Key.Technique}/{visit.Window.Key.Mode}");

    private static WorkVisit Visit(Guid tree, string technique, int closesIn, string? mode = null, bool isHeavy = false)
    {
        var window = new WorkWindow
        {
            Key = new WindowKey(tree, technique, mode, 2026, 1), Opens = DateBand.On(Day), Closes = DateBand.On(Day.PlusDays(closesIn)),
            State = WindowState.Open, Title = technique, Reasons = [], Amount = ""
        };
        var id = Guid.NewGuid();
        var job = new PlanJob($"{id}", $"{tree}", 10, 1, [0]) { IsHeavy = isHeavy };
        return new WorkVisit(id, window, 1, 1, Day, Day.PlusDays(closesIn), job, new Dictionary<LocalDate, string>(), false);
    }
}
