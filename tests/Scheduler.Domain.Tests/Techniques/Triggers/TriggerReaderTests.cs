using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Triggers;

namespace Scheduler.Domain.Tests.Techniques.Triggers;

public class TriggerReaderTests
{
    private static readonly Trigger[] All =
    [
        new PhaseTrigger(10), new PhaseTrigger(14, 2), new FirstShootsTrigger(10), new LeafCountTrigger(6), new HardenedTrigger(), new HardenedTrigger(2),
        new LeavesFullSizeTrigger(), new BaseFirmTrigger(), new SoftTrigger(), new DensityTrigger(2), new ShootLengthTrigger(8),
        new InternodeTrigger(1), new ShareLeftTrigger(10), new CandleTrigger("C3"), new HeatTrigger(5, 80, 140, "bbch-12"),
        new HeatTrigger(10, 450, null, "this-work"), new DaysTrigger(42, 56, "bbch-69"), new DaysTrigger(10, 14), new DaysToFrostTrigger(60),
        new RemainingHeatTrigger(10, 750), new BenchMinTrigger(0), new BenchMinAboveTrigger(3), new WarmNightsTrigger(15),
        new CoolNightsTrigger(15), new RootBallTrigger(8), new DayLengthRisingTrigger(), new DayLengthBackstopTrigger(),
        new AfterTrigger("tip-pinch"), new SeasonTrigger("next-spring"), new TextTrigger("juvenile needles seen"),
        new PastOutlineTrigger(1), new SpringGrowthFirmTrigger(), new TipsRestTrigger(), new TipsMovingTrigger(), new DormantTrigger(),
        new MidDormancyTrigger(), new FruitSetTrigger(), new FlowersPastTrigger(30), new MaxTrigger(30),
        new UsualDayTrigger("decandling/stage-1", -7, 7)
    ];

    public static TheoryData<int> Kinds => [.. Enumerable.Range(0, All.Length)];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void EveryKind_ReadsWhatItWrites(int kind)
    {
        var trigger = All[kind];
        Assert.Equal(trigger.Words, Read(trigger.Fields).Words);
        Assert.Equal(trigger.GetType(), Read(trigger.Fields).GetType());
        Assert.NotEmpty(trigger.Words);
        var either = new AnyTrigger([trigger, new DaysToFrostTrigger(80)]);
        Assert.Equal(either.Words, Read(either.Fields).Words);
    }

    [Fact]
    public void Kinds_AreAllThere() => Assert.Equal(
        typeof(Trigger).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(Trigger)))
            .Except([typeof(AllTrigger), typeof(AnyTrigger)]).Select(type => type.Name).Order(),
        All.Select(trigger => trigger.GetType().Name).Distinct().Order());

    [Theory]
    [InlineData("bbhc", 10, "'bbhc' is not a kind of trigger")]
    [InlineData("bbch", "ten", "'bbch' must be a number, not 'ten'")]
    public void Fault_IsNamed(string key, object value, string fault) =>
        Assert.Equal(fault, TriggerReader.Read(new Dictionary<string, object?> { [key] = value }).Fault);

    private static Trigger Read(IReadOnlyDictionary<string, object> fields)
    {
        var (trigger, fault) = TriggerReader.Read(Plain(fields));
        Assert.Null(fault);
        return trigger!;
    }

    private static Dictionary<string, object?> Plain(IReadOnlyDictionary<string, object> fields) => fields.ToDictionary(field => field.Key, field => Plain(field.Value));

    private static object? Plain(object value) => value switch
    {
        IReadOnlyDictionary<string, object> map => Plain(map),
        int[] numbers => (IReadOnlyList<object?>)[.. numbers.Select(number => (object?)number)],
        IEnumerable<IReadOnlyDictionary<string, object>> maps => (IReadOnlyList<object?>)[.. maps.Select(map => (object?)Plain(map))],
        _ => value
    };
}
