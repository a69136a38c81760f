using System.Globalization;
using NodaTime;
using Scheduler.Domain.Phenology;
using Scheduler.Domain.Phenology.Learning;
using Scheduler.Domain.Techniques;
using Scheduler.Domain.Techniques.Promises;
using Scheduler.Domain.Trees;
using Scheduler.Domain.Weather;
using Scheduler.Service.Tests.Catalog;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Rules;

/// <summary>
/// Replays one growth year of the invented garden day by day in invented weather. The owner follows the advice, and the
/// pages tell what changed.
/// </summary>
internal sealed class YearDiary
{
    private const int PastYears = 6;
    private const int MostTreesADay = 3;
    private readonly RecordedPlace _place;
    private readonly GrowthYear _year;
    private readonly LocalDate _from;
    private readonly List<DailyTemperature> _days;
    private readonly double[] _heatCd;
    private readonly IReadOnlyList<Tree> _trees;
    private readonly List<WorkRecord>[] _work;
    private readonly List<Observation>[] _seen;
    private readonly DiaryOwner _owner;
    private readonly DiaryPages _pages;
    private GardenClock? _clock;
    private int _works;

    public YearDiary(string place, int year)
    {
        _place = RecordedPlace.Read(Path.Combine(AppContext.BaseDirectory, "demo-data", "weather", place + ".csv"));
        _year = new GrowthYear(year, Hemisphere.OfLatitude(_place.Latitude));
        _from = _year.Turn.PlusYears(-PastYears - 1).PlusMonths(-3);
        var to = _year.Next.Turn.PlusDays(RecordedSource.ForecastDays);
        _days = [.. _place.Days(_from, to, to).Select(day => new DailyTemperature(day.Date, day.MinC, day.MaxC))];
        _heatCd = new double[_days.Count + 1];
        for (var day = 0; day < _days.Count; day++)
            _heatCd[day + 1] = _heatCd[day] + Math.Max(0, (_days[day].MinC + _days[day].MaxC) / 2 - 5);
        _trees = DiaryGarden.Trees(_year);
        _work = [.. _trees.Select(_ => new List<WorkRecord>())];
        _seen = [.. _trees.Select(_ => new List<Observation>())];
        _owner = new DiaryOwner(HeatCd);
        _pages = new DiaryPages(_place.Name, _trees);
        Checks = new DiaryChecks(HeatCd, _year);
    }

    public DiaryChecks Checks { get; }

    public string Write()
    {
        for (var today = _year.Turn; today < _year.Next.Turn; today = today.PlusDays(1))
            Day(today);
        return _pages.Text();
    }

    // From the day after one day through another.
    private double HeatCd(LocalDate from, LocalDate to) => _heatCd[Period.DaysBetween(_from, to) + 1] - _heatCd[Period.DaysBetween(_from, from) + 1];

    private void Day(LocalDate today)
    {
        var number = Period.DaysBetween(_year.Turn, today);
        var site = new SiteWeather(_place.Latitude, today, TemperatureSeries.From(_days.Take(Period.DaysBetween(_from, today) + 1 + RecordedSource.ForecastDays)));
        var current = SeasonEnsemble.Build(site, _year);
        var next = current.Following();
        // Past years alone fit the clock, and they do not change within a week.
        if (number % 7 == 0 || _clock is null)
            _clock = GardenClock.OfCatalog(new SiteSprings(current), ShippedCatalog.Content.GrowthRules, ShippedCatalog.Content.ClockRules);
        var garden = new GardenFacts
        {
            Today = today,
            Latitude = _place.Latitude,
            Days = [.. _place.Days(today.PlusDays(-14), today.PlusDays(RecordedSource.ForecastDays), today)],
            BenchOffsetC = 0,
            WaterAssured = true,
            FrostFreeShelter = true,
            SoilDry = false,
            RoomMinC = 17,
            RoomMaxC = 23
        };
        _pages.Begin(number + 1);
        var outlooks = _trees.Select(tree => tree.SpeciesId).Distinct().ToDictionary(id => id, id => Outlooks(id, current, next, today));
        var frost = current.Frost.AverageDay - current.TodayDay;
        var facts = new TreeFacts[_trees.Count];
        var advice = new IReadOnlyList<TechniqueAdvice>[_trees.Count];
        for (var index = 0; index < facts.Length; index++)
        {
            var species = ShippedCatalog.Content.Species[_trees[index].SpeciesId];
            if (IsLookDay(number, index) && _owner.Look(species, _trees[index], index, _work[index], today) is { } look)
                _seen[index].Add(look);
            var (ofThis, ofNext) = outlooks[species.Id];
            facts[index] = new TreeFacts(_trees[index], species, [.. _work[index]], [.. _seen[index]], ofThis, ofNext);
        }
        // Trees of one species share an outlook, which one thread may use at a time.
        Parallel.ForEach(Enumerable.Range(0, facts.Length).GroupBy(index => _trees[index].SpeciesId), same =>
        {
            foreach (var index in same)
                advice[index] = Advisor.Advise(Trees.Craft, facts[index], garden);
        });
        var worked = 0;
        for (var turn = 0; turn < _trees.Count; turn++)
        {
            // Every tree is the first of a day in its turn.
            var index = (turn + number * MostTreesADay) % _trees.Count;
            Checks.Day(_trees[index], today, advice[index], IsWeak(_trees[index], index), frost);
            _pages.Answers(index, advice[index], today, () => WindowFinder.Find(Trees.Craft, facts[index], garden).Windows);
            Care(index, advice[index], today);
            if (worked < MostTreesADay && Work(index, advice[index], today))
                worked++;
            if (IsLookDay(number, index) && _work[index].Count > 0)
                _pages.Promises(index, PromiseFinder.Find(Trees.Craft, facts[index] with { Work = [.. _work[index]] }, garden));
        }
        _pages.End(today);
    }

    private (GrowthOutlook Current, GrowthOutlook Next) Outlooks(string id, SeasonEnsemble current, SeasonEnsemble next, LocalDate today)
    {
        var species = ShippedCatalog.Content.Species[id];
        var clock = _clock!.Of(species);
        var outlook = new GrowthOutlook(current, clock, _owner.Phases(id));
        var shown = _owner.Note(species, outlook, today);
        if (shown.Count > 0)
        {
            _pages.Phases(species, shown);
            for (var index = 0; index < _trees.Count; index++)
            {
                if (_trees[index].SpeciesId == id)
                    _seen[index].AddRange(shown.Select(code => new Observation { Id = new Guid(index + 1, 2, (short)code, 0, 0, 0, 0, 0, 0, 0, 0), Date = today, Bbch = code }));
            }
            outlook = new GrowthOutlook(current, clock, _owner.Phases(id));
        }
        return (outlook, new GrowthOutlook(next, clock, []));
    }

    private static bool IsLookDay(int number, int index) => (number + index) % 7 == 0;

    private bool IsWeak(Tree tree, int index) => tree.Health <= Health.Weak || tree.Goals.Contains(Goal.Recover) || tree.Origin is not null
        || _seen[index].FindLast(seen => seen.PestSigns is not null)?.PestSigns == true;

    // One hand technique a day on one tree: the first that is open, in every part where it is.
    private bool Work(int index, IReadOnlyList<TechniqueAdvice> advice, LocalDate today)
    {
        if (advice.FirstOrDefault(DiaryGarden.IsHandWork) is not { } open)
            return false;
        var parts = open.Parts.Where(part => part.Verdict == Verdict.DoNow && !DiaryGarden.IsLook(open.Technique, part.Mode)).ToList();
        parts = [.. parts.Where(part => part.Mode == parts[0].Mode)];
        List<WorkRecord> works = parts.Count == 0 ? [Record(open.Technique, null, open.Amount)]
            : [.. parts.Select(part => Record(open.Technique, part.Mode, part.Amount) with { CrownZone = part.CrownZone, Branch = part.Branch })];
        foreach (var work in works)
        {
            Checks.Work(_trees[index], work, _work[index]);
            _work[index].Add(work);
        }
        _pages.Work(index, works);
        return true;

        WorkRecord Record(string technique, string? mode, IReadOnlyList<IReadOnlyDictionary<string, object>> amount)
        {
            var usual = Trees.Craft.Find(technique)!.Load.LeafAreaPercent;
            var told = amount.Select(entry => entry.TryGetValue("treePercentMax", out var most) ? Convert.ToDouble(most, CultureInfo.InvariantCulture) : usual).DefaultIfEmpty(usual).Min();
            return new WorkRecord
            {
                Id = NextId(),
                Technique = technique,
                Mode = mode,
                Date = today,
                Extent = technique == "repotting" && Ids.TryParse<Extent>(mode, out var extent) ? extent : null,
                LivingTopPercent = told < usual ? told : null
            };
        }
    }

    private void Care(int index, IReadOnlyList<TechniqueAdvice> advice, LocalDate today)
    {
        foreach (var look in advice.SelectMany(one => one.Parts.Where(part => part.Verdict == Verdict.DoNow && DiaryGarden.IsLook(one.Technique, part.Mode))))
        {
            _pages.WireLook();
            _work[index].Add(new WorkRecord { Id = NextId(), Technique = "wiring", Mode = look.Mode, Date = today, CrownZone = look.CrownZone, Branch = look.Branch });
        }
        foreach (var one in advice.Where(one => one.Verdict == Verdict.DoNow && DiaryGarden.IsCare(one.Technique)))
        {
            _pages.Care(index, one);
            // What is done nearly daily is told, not logged.
            if (one.Technique is not ("watering" or "heat-shade" or "frost-protection"))
                _work[index].Add(new WorkRecord { Id = NextId(), Technique = one.Technique, Date = today });
        }
    }

    private Guid NextId() => new(++_works, 3, 0, 0, 0, 0, 0, 0, 0, 0, 0);
}
