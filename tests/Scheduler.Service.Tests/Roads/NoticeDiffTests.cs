using NodaTime;
using Scheduler.Service.Roads;
using Scheduler.Service.Tests.Feeds;

namespace Scheduler.Service.Tests.Roads;

public class NoticeDiffTests
{
    private static readonly LocalDate Today = new(2026, 4, 15);
    private static readonly Guid Window = FeedSamples.Id(1);
    private static readonly NoticeJob Opening = new(Window, NoticeKind.Opening, 0);
    private static readonly NoticeJob Planned = new(Window, NoticeKind.Planned, 1);
    private static readonly NoticeJob Frost = new(Window, NoticeKind.Protection, 0);

    [Fact]
    public void Job_NotKnown_IsRaised() => Is(Of([], [Due(Opening, 2)]), raise: 1);

    [Fact]
    public void Job_StandingOnTheSameDay_StaysAsItIs() => Is(Of([Known(1, Opening, 2, told: true)], [Due(Opening, 2)]));

    [Fact]
    public void Job_ToldAndMoved_IsNotRepeated() => Is(Of([Known(1, Opening, 2, told: true)], [Due(Opening, 5)]));

    [Fact]
    public void Job_NotToldAndMoved_TakesTheNewDate()
    {
        var changes = Of([Known(1, Opening, 2)], [Due(Opening, 5)]);
        Is(changes, move: 1);
        Assert.Equal(Today.PlusDays(5), changes.Move[0].Due);
    }

    [Fact]
    public void Job_ToldAndMovedOutOfSight_StillStands() => Is(Of([Known(1, Opening, 2, told: true)], []));

    [Fact]
    public void Job_NotToldAndOutOfSight_IsDropped() => Is(Of([Known(1, Opening, 2)], []), close: 1);

    [Fact]
    public void Job_CalledOff_IsClosed() => Is(NoticeDiff.Of([Known(1, Opening, 2, told: true)], [], new HashSet<Guid>(), Today), close: 1);

    [Fact]
    public void Job_BackAfterItWasCalledOff_ForAnotherDay_IsRaised() => Is(Of([Known(1, Opening, 2, standing: false, told: true)], [Due(Opening, 6)]), raise: 1);

    [Fact]
    public void Job_BackAfterItWasCalledOff_ForTheSameDay_IsReopenedOnly() => Is(Of([Known(1, Opening, 2, standing: false, told: true)], [Due(Opening, 2)]), reopen: 1);

    [Fact]
    public void Job_MovedToADayThatWasClosedBefore_WhileAnotherIsTold_IsNotRepeated() =>
        Is(Of([Known(1, Opening, 2, standing: false), Known(2, Opening, 4, told: true)], [Due(Opening, 2)]));

    [Fact]
    public void Hold_Over_IsClosed_SoThatALaterOneIsNews() => Is(Of([Known(1, new NoticeJob(Window, NoticeKind.Held, 0), 3, told: true)], []), close: 1);

    [Fact]
    public void Visit_ToldAndMovedBeforeItsDay_IsNotRepeated() => Is(Of([Known(1, Planned, 1, told: true)], [Due(Planned, 3)]));

    [Fact]
    public void Visit_WhoseDayWentByWithoutTheWork_IsNewsOnItsNextDay() => Is(Of([Known(1, Planned, -1, told: true)], [Due(Planned, 3)]), raise: 1, close: 1);

    [Fact]
    public void FrostNight_AfterOneThatWasTold_IsAJobOfItsOwn() =>
        Is(Of([Known(1, Frost, -1, told: true, urgent: true)], [Due(Frost, 0, urgent: true)]), raise: 1, close: 1);

    [Fact]
    public void FrostNight_AfterOneThatWasNeverTold_LeavesThatBehind() =>
        Is(Of([Known(1, Frost, -1, urgent: true)], [Due(Frost, 0, urgent: true)]), raise: 1, close: 1);

    private static NoticeChanges Of(StoredNotice[] known, NoticeDue[] found) => NoticeDiff.Of(known, found, new HashSet<Guid> { Window }, Today);

    private static NoticeDue Due(NoticeJob job, int days, bool urgent = false) => new(job, Today.PlusDays(days), urgent);

    private static StoredNotice Known(int id, NoticeJob job, int days, bool standing = true, bool told = false, bool urgent = false) =>
        new(FeedSamples.Id(100 + id), job, Today.PlusDays(days), urgent, standing, told);

    private static void Is(NoticeChanges changes, int raise = 0, int move = 0, int reopen = 0, int close = 0) =>
        Assert.Equal((raise, move, reopen, close), (changes.Raise.Count, changes.Move.Count, changes.Reopen.Count, changes.Close.Count));
}
