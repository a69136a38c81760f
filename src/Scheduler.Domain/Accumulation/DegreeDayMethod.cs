namespace Scheduler.Domain.Accumulation;

/// <summary>
/// How a day's warmth above a base is worked out from its extremes. A threshold holds only for the method it was fitted with.
/// </summary>
public enum DegreeDayMethod
{
    /// <summary>Mean of the extremes less the base, not below 0: the convention of this project.</summary>
    SimpleAverage,

    /// <summary>Both extremes are first moved between base and upper limit, then averaged.</summary>
    ModifiedAverage,

    /// <summary>Four cases by where the base lies among minimum, mean and maximum, as weather services use it.</summary>
    FourCase,

    SingleSine,

    SingleTriangle,

    /// <summary>Half a sine from today's minimum to the maximum, half from there to tomorrow's minimum.</summary>
    DoubleSine,

    /// <summary>As the double sine, with straight lines.</summary>
    DoubleTriangle,
}

/// <summary>What warmth above the upper limit does.</summary>
public enum Cutoff
{
    /// <summary>There is no upper limit.</summary>
    None,

    /// <summary>It counts as if the temperature stood at the limit.</summary>
    Horizontal,

    /// <summary>It slows growth by as much as it exceeds the limit.</summary>
    Intermediate,

    /// <summary>Growth stops while it is above the limit.</summary>
    Vertical,
}
