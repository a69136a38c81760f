using NodaTime;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Trees;

namespace Scheduler.Service.Tests.Rules;

/// <summary>Wire on, dated checks and wire off (domain brief: common practice, intervals estimated).</summary>
public class WiringTests
{
    private static readonly LocalDate Midwinter = new(2025, 1, 20);
    private static readonly LocalDate Summer = new(2025, 6, 20);
    private static readonly LocalDate LateSummer = new(2025, 9, 10);

    [Theory]
    [InlineData("ulmus-parvifolia", 47, 5, 7)]
    [InlineData("ulmus-parvifolia", -43, 5, 7)]
    [InlineData("acer-palmatum", 47, 7, 10)]
    [InlineData("larix", -43, 7, 10)]
    [InlineData("juniperus-chinensis", 47, 28, 28)]
    [InlineData("pinus-thunbergii", 47, 28, 28)]
    public void Check_InGrowth_IsPromisedByKind(string species, double latitude, int low, int high)
    {
        var made = Made(species, latitude, Summer).Logged("wiring", 2);
        var check = made.Advice("wiring", "check");
        Assert.Equal(Verdict.Wait, check.Verdict);
        Assert.Equal([low - 2, high - 2], (int[])check.Opens!.Fields["days"]);
        Assert.Equal(Verdict.DoNow, Made(species, latitude, Summer).Logged("wiring", low).Advice("wiring", "check").Verdict);
        // Overdue is still to do, never missed.
        Assert.Equal(Verdict.DoNow, Made(species, latitude, Summer).Logged("wiring", high + 20).Advice("wiring", "check").Verdict);
    }

    [Theory]
    [InlineData(47)]
    [InlineData(-43)]
    public void Check_InDormancyAndInPinesLateSwelling_HasItsOwnInterval(double latitude)
    {
        var resting = Made("ulmus-parvifolia", latitude, Midwinter).Logged("wiring", 10).Advice("wiring", "check");
        Assert.Equal([32, 32], (int[])resting.Opens!.Fields["days"]);
        Assert.Equal([12, 12], (int[])Made("pinus-thunbergii", latitude, LateSummer).Logged("wiring", 2).Advice("wiring", "check").Opens!.Fields["days"]);
        Assert.Equal([26, 26], (int[])Made("juniperus-chinensis", latitude, LateSummer).Logged("wiring", 2).Advice("wiring", "check").Opens!.Fields["days"]);
    }

    [Theory]
    [InlineData("cut-back")]
    [InlineData("outline-trim")]
    [InlineData("leader-change")]
    public void Cut_StartsTheIntervalAnew(string cut)
    {
        var made = Made("ulmus-parvifolia", 47, Summer).Logged("wiring", 60).Logged("wiring", 6, "check").Logged(cut, 1);
        Assert.Equal([4, 6], (int[])made.Advice("wiring", "check").Opens!.Fields["days"]);
    }

    [Fact]
    public void NoWire_NoCheckAndNothingToTakeOff()
    {
        var made = Made("ulmus-parvifolia", 47, Summer);
        Assert.Equal(Verdict.Leave, made.Advice("wiring", "check").Verdict);
        Assert.Equal(Verdict.Leave, made.Advice("wiring", "remove").Verdict);
        var off = made.Logged("wiring", 30).Logged("wiring", 3, "remove");
        Assert.Equal(Verdict.Leave, off.Advice("wiring", "check").Verdict);
        // Wire off one branch leaves the rest wired.
        var some = made.Logged("wiring", 30).Logged("wiring", 3, "remove", work => work with { Branch = "B1" });
        Assert.Equal(Verdict.DoNow, some.Advice("wiring", "check").Verdict);
    }

    [Theory]
    [InlineData(Health.Failing, true)]
    [InlineData(Health.Weak, false)]
    [InlineData(Health.Vigorous, true)]
    public void TightWire_ComesOffToday_InEveryHealth(Health health, bool biting)
    {
        var made = Made("acer-palmatum", 47, Summer).Logged("wiring", 20)
            .Noted(seen => biting ? seen with { WireBiting = true } : seen with { WireTight = true });
        made = made with { Tree = made.Tree with { Health = health } };
        var off = made.Advice("wiring", "remove");
        Assert.Equal((Verdict.DoNow, "wire-tight", 45), (off.Verdict, off.Reasons[0].Id, off.Minutes));
        Assert.Equal(Verdict.DoNow, made.Advice("wiring").Verdict);
        Assert.Equal(Verdict.Leave, made.Logged("wiring", 0, "remove").Advice("wiring", "remove").Verdict);
    }

    [Fact]
    public void WireThatGrewASeason_ComesOffADeciduousTreeBeforeBudsBreak()
    {
        var old = Made("acer-palmatum", 47, Midwinter).Logged("wiring", 200).Advice("wiring", "remove");
        Assert.Equal((Verdict.Wait, 3), (old.Verdict, (int)old.Opens!.Fields["bbch"]));
        Assert.Equal(Verdict.Leave, Made("acer-palmatum", 47, Midwinter).Logged("wiring", 10).Advice("wiring", "remove").Verdict);
        Assert.Equal(Verdict.Leave, Made("pinus-thunbergii", 47, Midwinter).Logged("wiring", 200).Advice("wiring", "remove").Verdict);
    }

    [Theory]
    [InlineData(Health.Vigorous, 41, true)]
    [InlineData(Health.Vigorous, 42, false)]
    [InlineData(Health.Sound, 55, true)]
    [InlineData(Health.Sound, 56, false)]
    public void HeavyBend_RestsAfterRootWork(Health health, int daysAgo, bool barred)
    {
        var made = Made("fagus-sylvatica", 47, Summer).Logged("repotting", daysAgo, "normal").Noted(seen => seen with { Hardened = true });
        made = made with { Tree = made.Tree with { Health = health, Requests = [new TechniqueRequest("wiring", "heavy bend")] } };
        var bend = made.Advice("wiring", "heavy-bend");
        Assert.Equal(barred ? Verdict.NotAllowed : Verdict.DoNow, bend.Verdict);
        if (barred)
            Assert.Equal(("fresh-roots", 1), (bend.Reasons[0].Id, ((int[])bend.BarredUntil!.Fields["days"])[0]));
    }

    [Fact]
    public void Roots_RestAfterHeavyBends()
    {
        var made = Made("acer-palmatum", 47, new LocalDate(2025, 3, 10)).Noted(seen => seen with { Bbch = 3 });
        made = made with { Tree = made.Tree with { Requests = [new TechniqueRequest("repotting")] } };
        Assert.Equal(Verdict.DoNow, made.Advice("repotting", "normal").Verdict);
        var bent = made.Logged("wiring", 50, "heavy-bend").Advice("repotting", "normal");
        Assert.Equal(Verdict.NotAllowed, bent.Verdict);
        Assert.Equal([6, 6], (int[])bent.BarredUntil!.Fields["days"]);
    }

    [Theory]
    [InlineData(TreeStage.BranchBuilding, Verdict.DoNow)]
    [InlineData(TreeStage.Refinement, Verdict.Leave)]
    public void Wire_GoesOnWhileStructureIsSeen(TreeStage stage, Verdict verdict)
    {
        var made = Made("fagus-sylvatica", 47, Midwinter);
        made = made with { Tree = made.Tree with { Stage = stage } };
        Assert.Equal(verdict, made.Advice("wiring", "apply").Verdict);
        var opening = made with { NorthernDay = new LocalDate(2025, 4, 25), Seen = [Trees.Seen(new LocalDate(2025, 4, 25)) with { Bbch = 9 }] };
        // Once buds open it waits for hardened leaves; it comes round and is never missed.
        if (stage == TreeStage.BranchBuilding)
            Assert.Equal((Verdict.Wait, true), (opening.Advice("wiring", "apply").Verdict, opening.Advice("wiring", "apply").Opens!.Fields.ContainsKey("hardened")));
    }

    [Fact]
    public void WeakTree_GetsNoNewWire()
    {
        var made = Made("fagus-sylvatica", 47, Midwinter);
        Assert.Equal(Verdict.NotAllowed, (made with { Tree = made.Tree with { Health = Health.Weak } }).Advice("wiring", "apply").Verdict);
    }

    private static Made Made(string species, double latitude, LocalDate day) =>
        new(Trees.Tree(species, TreeStage.Ramification, Goal.Slender), latitude, day);
}
