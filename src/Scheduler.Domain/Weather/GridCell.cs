using System.Globalization;

namespace Scheduler.Domain.Weather;

/// <summary>
/// A square of the map, in degrees, whose gardens share one weather record. Cells are centered on whole multiples of their size.
/// </summary>
/// <remarks>
/// -180 and 180 are the same meridian, and every longitude at a pole is the same place, so each of these has one cell.
/// A point on the line between two cells belongs to the northern or eastern one.
/// </remarks>
public readonly record struct GridCell
{
    public const double DefaultSizeDegrees = 0.1;

    private readonly int _row;
    private readonly int _column;
    private readonly decimal _size;

    private GridCell(int row, int column, decimal size) => (_row, _column, _size) = (row, column, size);

    public double SizeDegrees => (double)_size;

    public double CenterLatitude => (double)(_row * _size);

    public double CenterLongitude => (double)(_column * _size);

    /// <summary>Latitude and longitude of the center, such as <c>52.5,13.4</c>; the same in every language.</summary>
    public string Key => string.Create(CultureInfo.InvariantCulture, $"{Text(_row)},{Text(_column)}");

    /// <summary>The cell a point lies in. The size must divide 90° without rest, so that cells meet at the poles.</summary>
    public static GridCell Of(double latitude, double longitude, double sizeDegrees = DefaultSizeDegrees)
    {
        if (!(Math.Abs(latitude) <= 90))
            throw new ArgumentOutOfRangeException(nameof(latitude), latitude, "Latitude must lie between -90 and 90.");
        if (!(Math.Abs(longitude) <= 180))
            throw new ArgumentOutOfRangeException(nameof(longitude), longitude, "Longitude must lie between -180 and 180.");
        if (!(sizeDegrees is >= 0.001 and <= 10) || 90m % (decimal)sizeDegrees != 0)
            throw new ArgumentOutOfRangeException(nameof(sizeDegrees), sizeDegrees, "The size must be 0.001 to 10 and divide 90.");

        // Decimal, because 13.25 / 0.1 in binary falls on either side of the line by chance.
        var size = (decimal)sizeDegrees;
        var row = Nearest((decimal)latitude / size);
        var column = Nearest((decimal)longitude / size);
        if (Math.Abs(row * size) == 90m)
            column = 0;
        else if (column * size == 180m)
            column = -column;
        return new GridCell(row, column, size);
    }

    public override string ToString() => Key;

    private static int Nearest(decimal cells) => (int)decimal.Floor(cells + 0.5m);

    private string Text(int index)
    {
        var decimals = Math.Max(1, (int)_size.Scale);
        return (index * _size).ToString($"F{decimals}", CultureInfo.InvariantCulture);
    }
}
