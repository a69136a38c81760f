namespace Scheduler.Domain.Weather;

/// <summary>Which half of the globe a place is on: it decides when a season begins.</summary>
public enum Hemisphere
{
    North,
    South,
}

public static class HemisphereOfLatitude
{
    extension(Hemisphere)
    {
        /// <summary>South below the equator; the equator itself counts as north.</summary>
        public static Hemisphere OfLatitude(double latitude)
        {
            if (!(Math.Abs(latitude) <= 90))
                throw new ArgumentOutOfRangeException(nameof(latitude), latitude, "Latitude must lie between -90 and 90.");
            return latitude < 0 ? Hemisphere.South : Hemisphere.North;
        }
    }
}
