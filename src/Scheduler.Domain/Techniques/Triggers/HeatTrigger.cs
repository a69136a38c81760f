using System.Globalization;

namespace Scheduler.Domain.Techniques.Triggers;

/// <summary>
/// Heat above a base since an event [C*d]: <c>bbch-nn</c>, <c>work:technique</c>, <c>this-work</c> or <c>today</c>.
/// </summary>
public sealed record HeatTrigger(int BaseC, double MinCd, double? MaxCd, string From) : Trigger
{
    private const string PhasePrefix = "bbch-";

    public override IReadOnlyDictionary<string, object> Fields
    {
        get
        {
            var heat = new Dictionary<string, object> { ["base"] = BaseC, ["min"] = MinCd, ["from"] = From };
            if (MaxCd is { } max)
                heat["max"] = max;
            return new Dictionary<string, object> { ["heatCd"] = heat };
        }
    }

    public override string Words => $"{Span} since {FromWords(From)}";

    public override string? Sight => null;

    public override string Question => QuestionOf(From) is { } when ? $"{when}: it takes {Span} from that day." : base.Question;

    public override double DayOf(TreeYear year, int draw, Side side)
    {
        var from = year.EventDay(From, draw);
        return double.IsPositiveInfinity(from) ? from : year.MemberOf(draw).DayOfHeat(BaseC, from, Sum(side));
    }

    public override double[] DaysOf(TreeYear year, Side side)
    {
        var from = year.EventDays(From);
        var days = new double[from.Length];
        var sum = Sum(side);
        for (var draw = 0; draw < days.Length; draw++)
            days[draw] = double.IsPositiveInfinity(from[draw]) ? from[draw] : year.MemberOf(draw).DayOfHeat(BaseC, from[draw], sum);
        return days;
    }

    public override Truth Today(TreeYear year, Side side) =>
        year.HeatSince(BaseC, From) is { } heat
            ? heat >= Sum(side) ? Truth.Yes : Truth.No
            : year.Passed(DaysOf(year, side));

    private string Span => string.Create(CultureInfo.InvariantCulture, $"{MinCd}{(MaxCd is { } max ? $"-{max}" : "")} degree-days above {BaseC} C");

    private double Sum(Side side) => side == Side.Closing ? MaxCd ?? MinCd : MinCd;

    /// <summary>How to ask for the day of a phase that something counts from; null: it does not count from a phase.</summary>
    internal static string? QuestionOf(string? from) => from is not null && from.StartsWith(PhasePrefix, StringComparison.Ordinal)
        && int.TryParse(from[PhasePrefix.Length..], CultureInfo.InvariantCulture, out var bbch)
            ? $"Log the day on which {PhaseWords.Of(bbch)}"
            : null;

    internal static string FromWords(string from) => from switch
    {
        "today" => "today",
        "this-work" => "this work",
        TreeYear.WireLook => "the wire was last looked at",
        _ when from.StartsWith("work:", StringComparison.Ordinal) => "the " + from[5..].Replace('-', ' '),
        _ when from.StartsWith(PhasePrefix, StringComparison.Ordinal) => "BBCH " + from[PhasePrefix.Length..].PadLeft(2, '0'),
        _ => from
    };
}
