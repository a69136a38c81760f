using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging.Abstractions;
using NodaTime;
using Scheduler.Service.Pages.LongWork;

namespace Scheduler.Pages.Tests.LongWork;

public sealed class LongWorksTests
{
    private static readonly LongWorkKey Key = new(Guid.NewGuid(), Guid.NewGuid(), "made up");

    [Fact]
    public async Task Work_IsFoundAgain_WithItsProgressAndItsResult()
    {
        using var works = new LongWorks(SystemClock.Instance, new Life(), NullLogger<LongWorks>.Instance);
        var (halfway, goOn) = (new TaskCompletionSource(), new TaskCompletionSource());
        var begun = works.Start(Key, "1", async (work, _) =>
        {
            work.Expect(2);
            work.Step();
            halfway.SetResult();
            await goOn.Task;
            work.Step();
            return "answer";
        });
        await halfway.Task;
        Assert.Same(begun, works.Find(Key));
        Assert.Equal((1, 2, true), (begun.Done, begun.Total, begun.IsRunning));
        Assert.Null(begun.Result);
        var shown = begun.State;
        // Asked again while it runs: it is not begun twice.
        Assert.Same(begun, works.Start(Key, "2", (_, _) => throw new InvalidOperationException("Begun twice.")));
        goOn.SetResult();
        await begun.Outcome;
        Assert.Equal((2, false, "answer"), (begun.Done, begun.IsRunning, begun.Result));
        // What a page holds does not change under it.
        Assert.Equal((1, true, null), (shown.Done, shown.IsRunning, shown.Result));
        Assert.Equal((2, false, "answer"), (begun.State.Done, begun.State.IsRunning, begun.State.Result));
        Assert.Null(works.Find(Key with { AccountId = Guid.NewGuid() }));
    }

    [Fact]
    public async Task Failure_IsTold_AndTheNextTryIsTaken()
    {
        using var works = new LongWorks(SystemClock.Instance, new Life(), NullLogger<LongWorks>.Instance);
        var failed = works.Start(Key, "1", (_, _) => throw new InvalidOperationException("Made to fail."));
        await Assert.ThrowsAsync<InvalidOperationException>(() => failed.Outcome);
        Assert.True(failed is { HasFailed: true, IsRunning: false, Result: null });
        var second = works.Start(Key, "1", (_, _) => Task.FromResult<object>("answer"));
        Assert.Equal("answer", await second.Outcome);
    }

    private sealed class Life : IHostApplicationLifetime
    {
        public CancellationToken ApplicationStarted => default;
        public CancellationToken ApplicationStopping => default;
        public CancellationToken ApplicationStopped => default;
        public void StopApplication() => throw new NotSupportedException();
    }
}
