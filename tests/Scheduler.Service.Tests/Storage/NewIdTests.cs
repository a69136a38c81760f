using Scheduler.Service.Storage;

namespace Scheduler.Service.Tests.Storage;

public sealed class NewIdTests
{
    [Fact]
    public void Ids_MadeOneAfterTheOther_RiseAndStayVersion7()
    {
        var ids = Enumerable.Range(0, 20_000).Select(_ => NewId.Next()).ToList();
        var texts = ids.Select(id => id.ToString("N")).ToList();
        Assert.Equal(texts.Order(StringComparer.Ordinal), texts);
        Assert.Equal(ids.Count, ids.Distinct().Count());
        Assert.All(ids, id => Assert.Equal((7, 8), (id.Version, id.Variant & 0xC)));
    }
}
