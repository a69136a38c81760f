namespace Scheduler.Domain.Phenology.Learning;

/// <summary>The clock's settings (config/growth.yaml): shapes per plant group and the spreads that weigh evidence. Logarithmic index units unless a unit is named.</summary>
public sealed record ClockRules
{
    /// <summary>The shapes and spreads found on the development records (see the guide, "How good is the clock").</summary>
    public static ClockRules Developed { get; } = new()
    {
        Trees = new("trees", [new(6, 3, 60, 0.005), new(4, 3, 45, 0.005), new(6, 5, 75, 0.005)]),
        Fruit = new("fruit", [new(6, 0, 60, 0.01), new(6, 1, 60, 0.01), new(6, 0, null, 0.01), new(6, 1, null, 0.01)]),
        Vines = new("vines", [new(6, 0, 115, 0.005), new(2, 1, 115, 0)])
    };

    /// <summary>Shapes for trees and shrubs: leaves, and flowers of other than fruit trees.</summary>
    public required ShapeGroup Trees { get; init; }
    /// <summary>Shapes for flowers of stone and pome fruit and ornamental cherries.</summary>
    public required ShapeGroup Fruit { get; init; }
    /// <summary>Shapes for vines, whose buds wait for a long warm-up.</summary>
    public required ShapeGroup Vines { get; init; }
    public IReadOnlySet<string> FruitGenera { get; init; } = new HashSet<string> { "Prunus", "Malus", "Pyrus", "Cydonia", "Chaenomeles", "Pistacia" };
    public IReadOnlySet<string> VineGenera { get; init; } = new HashSet<string> { "Vitis" };
    /// <summary>Spread of one year's threshold around a plant's own mean.</summary>
    public double YearSpread { get; init; } = 0.12;
    /// <summary>Spread between places for one species, between species of one genus or family, and between any two.</summary>
    public double SpeciesSpread { get; init; } = 0.3;
    public double KinSpread { get; init; } = 0.3;
    public double AnySpread { get; init; } = 0.45;
    /// <summary>Spread of a usual date taken from elsewhere, and of one year's date around a plant's own usual date [d].</summary>
    public double UsualSpreadDays { get; init; } = 9;
    public double YearSpreadDays { get; init; } = 6;
    /// <summary>Up to so many own springs a plant's values are freed from what its neighbors had in common each year.</summary>
    public double FewSprings { get; init; } = 5;
    /// <summary>Beyond so many robust spreads a date counts less (Huber).</summary>
    public double HuberSpreads { get; init; } = 1.3;
    /// <summary>Prior weight [years] and mean of the slope between forecast and calendar.</summary>
    public double SlopeYears { get; init; } = 40;
    public double SlopePrior { get; init; } = 1.05;
    /// <summary>Prior weight [years] of the group's error in a series' own error.</summary>
    public double ErrorYears { get; init; } = 10;
    public double ErrorScale { get; init; } = 0.88;
    /// <summary>Error [d] assumed before any is known.</summary>
    public double PriorErrorDays { get; init; } = 6;
    /// <summary>Days that a stand-in year is too late for each year of its age, a month ahead: springs have grown warmer.</summary>
    public double WarmBiasDaysPerYear { get; init; } = 0.05;
    /// <summary>By this share the spread of stand-in years is widened a month ahead.</summary>
    public double TraceWidening { get; init; } = 0.15;

    /// <summary>How far ahead of the known weather a date lies: 0 within it, 1 from a month on.</summary>
    public static double LeadShare(double daysAhead) => Math.Clamp(daysAhead / 30, 0, 1);

    public ShapeGroup GroupOf(SeriesKey series)
    {
        var genus = Kinship.Genus(series.Kind);
        if (VineGenera.Contains(genus))
            return Vines;
        return FruitGenera.Contains(genus) && PhaseClasses.Of(series.Phase) == PhaseClass.Flower ? Fruit : Trees;
    }
}
