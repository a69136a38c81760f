using System.Runtime.CompilerServices;

namespace Scheduler.Domain.Accumulation;

/// <summary>
/// What one hour of the dynamic model does to the product x, as x' = <see cref="Kept"/>·x + <see cref="Gained"/>, for the temperature
/// in °C.
/// </summary>
internal readonly record struct ChillHour(double TemperatureC, double Kept, double Gained)
{
    /// <summary>An hour without a temperature: nothing is built or destroyed.</summary>
    public static ChillHour Missing { get; } = new(double.NaN, 1, 0);

    /// <summary>exp(−k1) and xs·(1 − exp(−k1)), worked out in full.</summary>
    public static ChillHour Exactly(double temperatureC)
    {
        if (double.IsNaN(temperatureC))
            return Missing;
        var (xs, kept) = DynamicModel.Building(temperatureC);
        return new ChillHour(temperatureC, kept, xs * (1 - kept));
    }
}

/// <summary>
/// <see cref="ChillHour"/> by linear interpolation between steps of 0.05 °C from −40 to 60 °C; beyond, it is worked out in full.
/// </summary>
/// <remarks>
/// Both values bend like exp(−E/T), so a straight line over a step of h is off by at most (E1/T²)²·h²/8, which is 1.8·10⁻⁵ of k1 at
/// −40 °C and 0.9·10⁻⁵ at 0 °C.
/// </remarks>
internal static class ChillHourTable
{
    private const int LowestC = -40;
    private const int HighestC = 60;
    private const int StepsADegree = 20;

    private static readonly Cell[] Cells = Build();

    private readonly record struct Cell(double Kept, double KeptRise, double Gained, double GainedRise);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static ChillHour At(double temperatureC)
    {
        var cells = Cells;
        var step = (temperatureC - LowestC) * StepsADegree;
        if (!(step >= 0 && step < cells.Length))
            return ChillHour.Exactly(temperatureC);
        var below = (int)step;
        ref readonly var cell = ref cells[below];
        var above = step - below;
        return new ChillHour(
            temperatureC,
            Math.FusedMultiplyAdd(above, cell.KeptRise, cell.Kept),
            Math.FusedMultiplyAdd(above, cell.GainedRise, cell.Gained));
    }

    private static Cell[] Build()
    {
        var cells = new Cell[(HighestC - LowestC) * StepsADegree];
        for (var step = 0; step < cells.Length; step++)
        {
            var here = ChillHour.Exactly(LowestC + (double)step / StepsADegree);
            var next = ChillHour.Exactly(LowestC + (step + 1.0) / StepsADegree);
            cells[step] = new Cell(here.Kept, next.Kept - here.Kept, here.Gained, next.Gained - here.Gained);
        }
        return cells;
    }
}
