using Scheduler.Domain.Techniques.Promises;

namespace Scheduler.Domain.Tests.Techniques.Promises;

public class PromiseIdTests
{
    private static readonly Guid Work = new("00000001-0002-0003-0405-060708090a0b");

    // Worked out apart, with the uuid5 function of Python's standard library.
    [Theory]
    [InlineData("score-density", null, "af638a34-ff19-515d-9aaa-1811ac6c50c0")]
    [InlineData("stage-2", "decandling", "9da90411-2b08-5353-a452-facb1c1f55b2")]
    public void Of_IsAVersion5Id(string what, string? technique, string id) => Assert.Equal(new Guid(id), PromiseId.Of(Work, what, technique));

    [Fact]
    public void Of_TellsWorkWhatAndTechniqueApart()
    {
        Guid[] ids = [PromiseId.Of(Work, "look", null), PromiseId.Of(Work, "look", "feeding"), PromiseId.Of(Work, "feed", "feeding"), PromiseId.Of(Guid.Empty, "look", null)];
        Assert.Equal(ids.Length, ids.Distinct().Count());
        Assert.All(ids, id => Assert.Equal(5, id.Version));
    }
}
