namespace Scheduler.Domain.Planning;

/// <summary>
/// What a minute of each day is worth when jobs bid for it: the multipliers of the Lagrangian relaxation of the days' limits, found by
/// subgradient steps (M. L. Fisher, The Lagrangian relaxation method for solving integer programming problems, Management Science
/// 27(1), 1981, from memory). A day that many want becomes dear, so that jobs with a choice go elsewhere.
/// </summary>
internal sealed class DayPrices
{
    private const int Rounds = 60;
    private readonly double[] _minute;
    private readonly double[] _heavy;

    public DayPrices(PlanBoard board)
    {
        _minute = new double[board.Days];
        _heavy = new double[board.Days];
        var used = new int[board.Days];
        var heavy = new int[board.Days];
        var (worth, minutes) = (0.0, 0.0);
        for (var job = 0; job < board.Jobs.Length; job++)
            (worth, minutes) = (worth + board.Worths[job], minutes + board.Minutes(job));
        // Mean worth of a minute and of a job: the scale of the steps.
        var (perMinute, perJob) = (worth / Math.Max(minutes, 1), worth / Math.Max(board.Jobs.Length, 1));
        for (var round = 0; round < Rounds; round++)
        {
            Array.Clear(used);
            Array.Clear(heavy);
            for (var job = 0; job < board.Jobs.Length; job++)
            {
                var (best, day) = (0.0, -1);
                foreach (var place in board.Places[job])
                {
                    var gain = board.Worths[job] - Of(board, job, place);
                    if (gain > best)
                        (best, day) = (gain, place);
                }
                if (day < 0)
                    continue;
                used[day] += board.Minutes(job);
                heavy[day] += board.IsHeavy(job) ? 1 : 0;
            }
            var step = 0.5 / (1 + 0.2 * round);
            for (var day = 0; day < board.Days; day++)
            {
                if (board.Free(day) <= 0)
                    continue;
                var over = (used[day] - board.Free(day)) / (double)board.Free(day);
                _minute[day] = Math.Max(0, _minute[day] + step * perMinute * Math.Clamp(over, -1, 1));
                _heavy[day] = Math.Max(0, _heavy[day] + step * perJob * Math.Clamp(heavy[day] - 1, -1, 1));
            }
        }
    }

    public double Of(PlanBoard board, int job, int day) => _minute[day] * board.Minutes(job) + (board.IsHeavy(job) ? _heavy[day] : 0);
}
