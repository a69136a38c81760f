using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques;

namespace Scheduler.Domain.Tests.Techniques;

public class PracticeSettingsTests
{
    private static readonly PracticeSettings Points = new(
    [
        new("2", "outline", "Trimmed?", new Dictionary<string, string> { ["free"] = "Free.", ["trimmed"] = "Trimmed." }, "trimmed", Provenance.CommonPractice),
        new("3", null, "All leaves?", new Dictionary<string, string> { ["yes"] = "Yes.", ["no"] = "No." }, "no", Provenance.CommonPractice)
    ]);

    [Theory]
    [InlineData("", "", "trimmed")]
    [InlineData("2=free", "", "free")]
    [InlineData("outline=free", "", "free")]
    [InlineData("2=free", "outline=trimmed", "trimmed")]
    [InlineData("outline=trimmed", "2=free", "free")]
    [InlineData("2=gone", "", "trimmed")]
    public void Choice_OfTheTree_BeatsTheAccountUnderEitherName(string account, string tree, string expected)
    {
        var merged = Points.Merge(Chosen(account), Chosen(tree));
        Assert.Equal(expected, Points.Of("2", merged));
        Assert.Equal(expected, Points.Of("outline", merged));
    }

    [Theory]
    [InlineData("3=true", "yes"), InlineData("3=false", "no"), InlineData("3=yes", "yes"), InlineData("", "no")]
    public void YesNoPoint_AnswersYesOrNo(string chosen, string expected) => Assert.Equal(expected, Points.Of("3", Chosen(chosen)));

    [Fact]
    public void TrueOrFalse_IsNoChoiceOfAnotherPoint() => Assert.Null(Points.Find("2")!.ChoiceOf("true"));

    private static Dictionary<string, string> Chosen(string text) =>
        text.Length == 0 ? [] : text.Split(' ').Select(one => one.Split('=')).ToDictionary(one => one[0], one => one[1]);
}
