using System.Globalization;
using System.Text;
using NodaTime;

namespace Scheduler.Service.Tests.MainJob;

/// <summary>Invented daily readings with a yearly wave, years that differ, and a little daily noise; no chance involved.</summary>
internal static class MadeReadings
{
    /// <param name="meanC">Mean of the year.</param>
    /// <param name="swingC">Half the difference between summer and winter; negative turns the seasons around for the south.</param>
    /// <param name="warmerFrom">From this day on the days are warmer by <paramref name="warmerC"/>.</param>
    public static string Csv(LocalDate from, LocalDate to, double meanC = 9.5, double swingC = 9, LocalDate? warmerFrom = null, double warmerC = 0)
    {
        var csv = new StringBuilder("date,tmin_c,tmax_c\n");
        for (var date = from; date <= to; date = date.PlusDays(1))
        {
            var wave = -swingC * Math.Cos((date.DayOfYear - 15) * 2 * Math.PI / 365.25);
            var ofYear = 1.2 * Math.Sin(date.Year * 2.4);
            var ofDay = 2.5 * Math.Sin((date.DayOfYear + 13 * date.Year) * 1.7) + 1.5 * Math.Sin(date.DayOfYear * 0.37 + date.Year);
            var mean = meanC + wave + ofYear + ofDay + (date >= warmerFrom ? warmerC : 0);
            csv.Append(CultureInfo.InvariantCulture, $"{date:uuuu-MM-dd},{mean - 4.5:f1},{mean + 4.5:f1}\n");
        }
        return csv.ToString();
    }
}
