using Scheduler.Domain.Techniques.Care;

namespace Scheduler.Domain.Techniques;

/// <summary>
/// All work windows of a tree in the current and the coming growth year, and for everything that has none the reason.
/// </summary>
public static class WindowFinder
{
    public static WindowSet Find(Craft craft, TreeFacts tree, GardenFacts garden)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentNullException.ThrowIfNull(garden);
        var nights = new BenchNights(garden, craft.Thresholds);
        var windows = new List<WorkWindow>();
        var refusals = new List<Refusal>();
        foreach (var outlook in new[] { tree.Current, tree.Next })
        {
            var year = new TreeYear(craft, tree, garden, nights, outlook);
            foreach (var judged in SeasonRun.Today(year).Season)
            {
                windows.AddRange(judged.Windows);
                var isDone = judged.Judgement.IsDone && judged.Windows.Count > 0;
                if (!judged.Judgement.Mode.IsStatement && !isDone && judged.Windows.All(window => window.State == WindowState.Done))
                    refusals.Add(Refused(judged.Judgement));
            }
            windows.AddRange(CareAdvice.Windows(year));
        }
        return new WindowSet(windows, refusals);
    }

    private static Refusal Refused(Judgement judgement)
    {
        var year = judgement.Year;
        var reasons = judgement.Verdict is Verdict.NotAllowed or Verdict.Leave or Verdict.Missed
            ? judgement.Reasons
            : [year.Because(year.Outlook.Season.HasWeather ? "not-open-yet" : "fact-missing", year.Outlook.Season.HasWeather
                ? "The growth it waits for is not expected this year."
                : "Not enough past weather is known here yet.")];
        return new Refusal(judgement.Technique.Id, judgement.Mode.Id, year.Year.Year, judgement.Verdict, reasons);
    }
}
