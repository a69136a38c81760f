using System.Text.Json;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Tests.Storage;

public class TriggerConverterTests
{
    [Theory]
    [InlineData("""{"bbch":10}""")]
    [InlineData("""{"daysToFrost":60}""")]
    [InlineData("""{"any":[{"bbch":12},{"hardened":true}]}""")]
    [InlineData("""{"heatCd":{"base":5,"min":180,"from":"work:tip-pinch","max":300}}""")]
    public void Trigger_ReadAndWritten_IsTheSame(string json) => Assert.Equal(json, Json.Write(Json.Read<Trigger>(json)));

    [Fact]
    public void Trigger_HeldByItsOwnType_IsWrittenByItsFields() =>
        Assert.Equal("""{"daysToFrost":45}""", JsonSerializer.Serialize(new DaysToFrostTrigger(45), Json.Options));

    [Theory]
    [InlineData("""{"moonPhase":3}""")]
    [InlineData("""[]""")]
    public void Text_ThatIsNoTrigger_IsRefused(string json) => Assert.Throws<JsonException>(() => Json.Read<Trigger>(json));
}
