using Scheduler.Service.Hosting;

namespace Scheduler.Service.Tests.Hosting;

public class NearestIdsTests
{
    private static readonly string[] Techniques = ["tip-pinch", "cut-back", "candle-pinch", "wiring", "watering"];

    [Theory]
    [InlineData("tip-pinsh", "tip-pinch")]
    [InlineData("Tip Pinch", "tip-pinch")]
    [InlineData("pinch", "tip-pinch")]
    [InlineData("wirring", "wiring")]
    public void Nearest_IsFirst(string text, string nearest) => Assert.Equal(nearest, NearestIds.Of(text, Techniques)[0]);

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    public void Nothing_StillNamesSome(string? text) => Assert.Equal(3, NearestIds.Of(text, Techniques).Count);

    [Fact]
    public void OverlongText_IsCutBeforeComparing() => Assert.Equal(2, NearestIds.Of(new string('x', 1_000_000), Techniques, 2).Count);
}
