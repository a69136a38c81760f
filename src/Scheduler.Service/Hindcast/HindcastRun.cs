using NodaTime;
using Scheduler.Domain.Phenology.Learning;

namespace Scheduler.Service.Hindcast;

/// <summary>An answered question; no dates where the phase is not expected to come or nothing is known of it.</summary>
internal sealed record Answer(Question Question, LocalDate? Early, LocalDate? Likely, LocalDate? Late);

/// <summary>
/// Answers questions about seasons without looking at what is asked. Without an issue date a clock answers that was trained on all
/// but the asked dates of the season. With one, a clock that saw no date of the season at all and no stand-in year later than it;
/// of the season itself it takes the weather up to that day, and what else was seen of the same plant by then.
/// </summary>
/// <remarks>Dates of later years teach too where they are given, each with the weather of its own season.</remarks>
internal sealed class HindcastRun
{
    private const int SeasonDays = 365;
    private readonly HindcastInput _input;
    private readonly ClockRules _rules;
    private readonly Kinship _kinship;
    private readonly ILookup<(string Site, string Kind, int Year), PhaseDate> _ofPlant;
    private readonly HashSet<(SeriesKey, int Year)> _asked;
    private readonly HashSet<int> _yearsToHide;

    public HindcastRun(HindcastInput input, ClockRules rules, Kinship kinship)
    {
        (_input, _rules, _kinship) = (input, rules, kinship);
        _ofPlant = input.Dates.ToLookup(date => (date.Site, date.Kind, date.Year));
        _asked = input.Asked.Select(question => (question.Series, input.AxisOf(question).Year)).ToHashSet();
        _yearsToHide = input.Dates.Where(IsAsked).Select(date => date.Year).ToHashSet();
    }

    /// <summary>Answers in the order asked.</summary>
    /// <param name="progress">Told how many questions are answered after each round of training.</param>
    public IReadOnlyList<Answer> Answers(Action<int> progress)
    {
        var answers = new Answer[_input.Asked.Count];
        var done = 0;
        foreach (var round in _input.Asked.Select((question, index) => (Question: question, Index: index)).GroupBy(asked => RoundOf(asked.Question)))
        {
            var clocks = Train(round.Key);
            foreach (var (question, index) in round)
                answers[index] = AnswerTo(question, clocks);
            done += round.Count();
            progress(done);
        }
        return answers;
    }

    /// <summary>Questions that one training answers.</summary>
    /// <param name="Year">The season whose dates are hidden; null: none needs to be.</param>
    /// <param name="LastWholeYear">With an issue date: the last year that may stand in for the season.</param>
    private readonly record struct Round(int? Year, int? LastWholeYear);

    private sealed record Clocks(SharedClock Shared, SeriesForecaster Spring, AutumnClock Autumn, IReadOnlyDictionary<string, SiteHistory> Sites);

    private Round RoundOf(Question question)
    {
        var axis = _input.AxisOf(question);
        if (IssuedDay(question) is not null)
            return new Round(axis.Year, SiteHistory.LastWholeYear(axis, question.IssuedOn!.Value));
        return new Round(_yearsToHide.Contains(axis.Year) ? axis.Year : null, null);
    }

    private Clocks Train(Round round)
    {
        var issued = round.LastWholeYear is not null;
        var sites = issued
            ? _input.Sites.ToDictionary(site => site.Key, site => site.Value.During(round.Year!.Value, round.LastWholeYear!.Value))
            : _input.Sites;
        var dates = _input.Dates.Where(date => date.Year != round.Year || (!issued && !IsAsked(date))).ToList();
        var shared = new SharedClock(sites, dates.Where(date => !PhaseYears.IsAutumn(date.Phase)), _rules, _kinship);
        return new Clocks(shared, new SeriesForecaster(shared, _rules), new AutumnClock(sites, dates.Where(date => PhaseYears.IsAutumn(date.Phase)), _rules, _kinship), sites);
    }

    private Answer AnswerTo(Question question, Clocks clocks)
    {
        var (key, axis, issued) = (question.Series, _input.AxisOf(question), IssuedDay(question));
        if (!clocks.Sites.TryGetValue(key.Site, out var site))
            return new Answer(question, null, null, null);
        int? known = issued is { } day ? LastKnown(site.Season(axis.Year), day) : null;
        var forecast = PhaseYears.IsAutumn(key.Phase)
            ? clocks.Autumn.Forecast(key, axis.Year, known)
            : clocks.Spring.Forecast(key, axis.Year, known, Seen(key, axis.Year, issued));
        if (!forecast.IsExpected)
            return new Answer(question, null, null, null);
        // What is asked about on the day of issue has not come yet.
        var first = (issued ?? int.MinValue) + 1d;
        return new Answer(question, Date(Math.Floor(forecast.Early)), Date(Math.Round(forecast.Likely)), Date(Math.Ceiling(forecast.Late)));

        LocalDate Date(double axisDay) => axis.DateOf((int)Math.Max(axisDay, first));
    }

    private List<PhaseDate> Seen(SeriesKey key, int year, int? issued) =>
        [.. _ofPlant[(key.Site, key.Kind, year)].Where(date => date.Phase != key.Phase && !IsAsked(date) && !(date.Day > issued))];

    // Issued after the season was over: all of it is known by then.
    private int? IssuedDay(Question question)
    {
        if (question.IssuedOn is not { } issuedOn)
            return null;
        var axis = _input.AxisOf(question);
        var day = axis.DayOf(issuedOn);
        return day < (PhaseYears.IsAutumn(question.Series.Phase) ? axis.Days - 1 : SeasonDays) ? day : null;
    }

    // A station that fell silent before the day of issue leaves the days between unknown, whether or not it spoke again.
    private static int LastKnown(SeasonDrivers season, int day)
    {
        while (day >= 0 && (day >= season.Days || double.IsNaN(season.MinC[day])))
            day--;
        return day;
    }

    private bool IsAsked(PhaseDate date) => _asked.Contains((date.Series, date.Year));
}
