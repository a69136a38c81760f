using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>
/// Feed on or off. Any rest beats any row that feeds; weather that stops roots from taking up feed is a rest too. Weak
/// trees get half and only while they grow, failing trees nothing.
/// </summary>
internal sealed class Feeding : CareRule
{
    private const int LeavesSeparate = 10;
    private readonly FeedingRules _rules;
    private readonly List<FeedSpan> _feeds;
    private readonly List<FeedSpan> _rests;

    public Feeding(Technique technique, FeedingRules rules, TreeYear year) : base(technique, year)
    {
        _rules = rules;
        var spans = rules.Rows.AllFor(year, row => new FeedSpan(row, year));
        _feeds = [.. spans.Where(span => span.Row.Feed is not null)];
        _rests = [.. spans.Where(span => span.Row.Feed is null)];
    }

    public override CareFinding Today()
    {
        if (Year.Health == Health.Failing)
            return new(Verdict.Leave, [Year.Because("weak-or-recovering", "A failing tree is not fed.")]);
        var today = Year.TodayDay;
        if (FeedAt(today) is not { } feed)
            return OutOfSeason(today);
        if (RestAt(today) is { } rest)
            return Waits(rest.Row.Until!, rest.Row.Text, FeedAt(rest.Until) ?? feed);
        if (WeatherRest() is { } weather)
            return Waits(weather.Until, weather.Text, feed);
        if (Year.Health == Health.Weak && !Year.Group.GrowsWheneverWarm && !CareClock.HasCome(Year, LeavesSeparate))
            return Waits(new PhaseTrigger(LeavesSeparate), "A weak tree is fed only while it grows.", feed);
        var since = Year.Log.Last(Technique.Id) is { } fed ? Period.DaysBetween(fed.Date, Year.Today) : int.MaxValue;
        var (low, high) = ((int)_rules.CycleLowDays.Value, (int)_rules.CycleHighDays.Value);
        if (since < low)
        {
            var next = new DaysTrigger(low - since, high - since);
            return Fed(new(Verdict.Wait, [Year.Because("done-this-window", $"Fed {since} days ago; again in the rhythm of the label.")], next), feed);
        }
        return Fed(new(Verdict.DoNow, [Year.Because("fed-by-stage", feed.Row.Text)], CareClock.Told(feed.Row.From, Year)) { Closes = feed.Row.Until }, feed);
    }

    public override IEnumerable<WorkWindow> Windows()
    {
        if (Year.Outlook.DrawCount == 0 || Year.Health == Health.Failing || _feeds.Count == 0)
            yield break;
        var pass = 1;
        foreach (var (from, until, feed) in Periods())
        {
            var opens = DateBand.Of(Year.Year, from);
            var closes = DateBand.Of(Year.Year, [.. until.Select(day => Math.Min(day, Year.Year.Days - 1))]);
            if (opens.Likely is not { } on || closes.Likely is not { } off || on > off)
                continue;
            var state = off < Year.Today ? WindowState.Done : on <= Year.Today ? WindowState.Open : WindowState.Forecast;
            var key = new WindowKey(Year.Tree.Id, Technique.Id, Technique.Modes[0].Id, Year.Year.Year, pass++);
            var judgement = Judged(Verdict.DoNow, []);
            yield return WindowWriter.Plain(judgement, key, opens, closes, state, [Year.Because("fed-by-stage", feed.Row.Text)]) with { Amount = AmountText(feed) };
        }
    }

    // Time fed between rests. Which rests matter is told by the likely days, the dates by every draw.
    private IEnumerable<(double[] From, double[] Until, FeedSpan Feed)> Periods()
    {
        var first = _feeds.MinBy(span => span.From)!;
        var last = _feeds.MaxBy(span => span.Until)!;
        var from = first.FromDays;
        var begins = first.From;
        foreach (var rest in _rests.OrderBy(span => span.From))
        {
            if (rest.Until <= begins || rest.From >= last.Until)
                continue;
            if (rest.From > begins)
                yield return (from, rest.FromDays, FeedAt(begins) ?? first);
            from = [.. from.Zip(rest.UntilDays, Math.Max)];
            begins = Percentiles.Likely(from);
        }
        if (begins < last.Until)
            yield return (from, last.UntilDays, FeedAt(begins) ?? last);
    }

    private FeedSpan? FeedAt(double day) => _feeds.Find(span => span.IsOn(day));

    // The rest that ends last.
    private FeedSpan? RestAt(double day) => _rests.Where(span => span.IsOn(day)).MaxBy(span => span.Until);

    private CareFinding OutOfSeason(double today)
    {
        var next = _feeds.Where(span => span.From > today && span.From < span.Until).MinBy(span => span.From);
        if (next is null || double.IsInfinity(next.From))
            return new(Verdict.Leave, [Year.Because("feeding-rests", "The feeding season is over; late nitrogen keeps wood soft.")]);
        var rest = RestAt(today) ?? RestAt(next.From);
        return rest is not null && rest.Until > next.From
            ? Waits(rest.Row.Until!, rest.Row.Text, FeedAt(rest.Until) ?? next)
            : Waits(next.Row.From, $"Feed starts when {CareClock.Told(next.Row.From, Year).Words}.", next);
    }

    private (Trigger Until, string Text)? WeatherRest()
    {
        bool IsHot(LocalDate date) => Year.Garden.Days.Any(day => day.Date == date && day.MaxC >= _rules.HeatC.Value);
        if (!Year.IsIndoors && IsHot(Year.Today))
        {
            var cool = Enumerable.Range(1, (int)Year.Thresholds.FrostWindowNights.Value).FirstOrDefault(ahead => !IsHot(Year.Today.PlusDays(ahead)), 1);
            return (new DaysTrigger(cool, cool), $"No feed in heat of {Degrees(_rules.HeatC.Value)} or more.");
        }
        if (Year.Garden.SoilDry == true || Year.Seen.DrySoil)
            return (new TextTrigger("the root ball is moist again"), "No feed on a dry root ball.");
        if (Year.Seen.Any(seen => seen.Soil == "wet" && Year.Seen.IsToday(seen)))
            return (new TextTrigger("the root ball has drained"), "No feed on a waterlogged root ball.");
        return Year.Garden.RootBallC < _rules.ColdBallC.Value
            ? (new RootBallTrigger(_rules.ColdBallC.Value), $"No feed while the root ball is below {Degrees(_rules.ColdBallC.Value)}.")
            : null;
    }

    private CareFinding Waits(Trigger until, string text, FeedSpan feed) =>
        Fed(new(Verdict.Wait, [Year.Because("feeding-rests", text)], CareClock.Told(until, Year)), feed);

    private CareFinding Fed(CareFinding finding, FeedSpan feed) => finding with
    {
        Amount = new Dictionary<string, object> { ["feed"] = Strength(feed) },
        AmountText = AmountText(feed)
    };

    private string Strength(FeedSpan feed) => Year.Health == Health.Weak ? "half" : feed.Row.Feed!;

    private string AmountText(FeedSpan feed) => Strength(feed) switch
    {
        "strong" => "The full amount of the label, at the short end of its rhythm.",
        "medium" => "The full amount of the label, at the long end of its rhythm.",
        "low-nitrogen" => "A low-nitrogen feed, half the amount of the label.",
        "half" => "Half the amount of the label.",
        _ => "Half the amount of the label, at the long end of its rhythm."
    };
}
