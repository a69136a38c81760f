using NodaTime;
using Scheduler.Domain.Techniques.Triggers;
using Scheduler.Domain.Trees;

namespace Scheduler.Domain.Techniques.Care;

/// <summary>How often to lift the pot or put a finger in. It prompts a look and never waters by itself.</summary>
internal sealed class Watering(Technique technique, WateringRules rules, TreeYear year) : CareRule(technique, year)
{
    public override CareFinding Today()
    {
        var demand = new WaterDemand(rules, Year);
        if (Year.Garden.SoilDry == true || Year.Seen.DrySoil)
            return Look("daily", 1, [Year.Because("root-ball-dry")]);
        if (demand.Index is not { } index)
            return Look("daily", 1, [Year.Because("look-due", "Today's weather is not known, so look every day.")]);
        var source = demand.IsFromTemperature ? ", worked out from temperature and latitude" : "";
        var reason = Year.Because("water-by-demand", string.Create(System.Globalization.CultureInfo.InvariantCulture,
            $"Water drawn today: index {index:0.0} (reference evaporation {demand.Et0Mm:0.0} mm{source}; daily above {rules.DailyAbove.Value:0.0})."));
        if (IsHotAndSmall(demand))
            return Look("several-a-day", 1, [reason, Year.Because("water-by-demand", "A small ball dries out within hours in such heat.")]);
        if (index > rules.DailyAbove.Value)
            return Look("daily", 1, [reason]);
        var every = Interval(index);
        if (LastWatered is { } last && Period.DaysBetween(last, Year.Today) is var since && since < every)
            return Look("every-days", every, [reason], Verdict.Wait) with { Opens = new DaysTrigger(every - since, every - since) };
        return Look("every-days", every, [reason]);
    }

    // As many days as draw what one day at the limit does.
    private int Interval(double index) =>
        (int)Math.Clamp(Math.Floor(rules.DailyAbove.Value / Math.Max(index, 0.01)), 1, rules.MostDays.Value);

    private bool IsHotAndSmall(WaterDemand demand) =>
        !Year.IsIndoors && Year.Tree.Size is TreeSize.Xs or TreeSize.S && demand.Day?.MaxC >= rules.SeveralFromC.Value;

    private LocalDate? LastWatered => Year.Log.LastEver(Technique.Id)?.Date;

    private CareFinding Look(string check, int everyDays, IReadOnlyList<Reason> reasons, Verdict verdict = Verdict.DoNow)
    {
        var amount = new Dictionary<string, object> { ["check"] = check };
        if (check == "every-days")
            amount["days"] = everyDays;
        return new(verdict, reasons)
        {
            Amount = amount,
            AmountText = check switch
            {
                "several-a-day" => "Look two or three times today; water when the surface has dried.",
                "daily" => "Look today; water when the surface has dried or the pot feels light.",
                _ => everyDays == 1 ? "Look every day." : $"Look every {everyDays} days."
            },
            Cautions = IsFrostComing ? ["Frost is coming: moist, not sodden. A moist ball keeps its roots, a full one freezes."] : []
        };
    }

    private bool IsFrostComing => !Year.IsIndoors
        && Year.Nights.LowestC(0, (int)Year.Thresholds.FrostSoonNights.Value) <= Year.Thresholds.FrostSoonC.Value;
}
