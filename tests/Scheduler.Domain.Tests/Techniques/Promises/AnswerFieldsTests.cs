using Scheduler.Domain.Techniques.Promises;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Tests.Techniques.Promises;

public class AnswerFieldsTests
{
    private static readonly Observation Look = new() { Id = Guid.Empty, Date = new(2026, 5, 4) };

    [Fact]
    public void Look_WithoutTheFact_AnswersOnlyWhereNothingIsAsked()
    {
        Assert.True(AnswerFields.Tells(Look, []));
        Assert.All(AnswerFields.Names, name => Assert.False(AnswerFields.Tells(Look, [name])));
    }

    [Fact]
    public void Look_WithOneOfTheFacts_Answers()
    {
        Assert.True(AnswerFields.Tells(Look with { Density = 0 }, ["bbch", "density"]));
        Assert.True(AnswerFields.Tells(Look with { WireTight = false }, ["wire"]));
        Assert.False(AnswerFields.Tells(Look with { Density = 2 }, ["wire"]));
    }
}
