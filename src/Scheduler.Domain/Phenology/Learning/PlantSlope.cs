namespace Scheduler.Domain.Phenology.Learning;

/// <summary>
/// How far one plant follows the clock: as the plants of its place do, unless its own springs clearly show that it follows less.
/// </summary>
/// <remarks>
/// Posterior mean of a mixture: the place's slope with prior probability 0.95, else any tenth of it below, all alike. Likelihood of
/// a slope: (k v + n e)^(-(n + k) / 2), e the plant's mean squared error with it over n springs, v the place's, k = 5 (Student's t
/// with a scaled inverse chi-squared prior; Gelman et al., Bayesian Data Analysis, from memory).
/// </remarks>
public static class PlantSlope
{
    private const double AsThePlace = 0.95;
    private const int Tenths = 10;
    private const double PriorSprings = 5;

    /// <param name="place">Slope of all plants of the place.</param>
    /// <param name="placeVariance">Mean squared error that slope leaves there [d^2].</param>
    /// <param name="springs">How many springs the plant was seen.</param>
    /// <param name="errorOf">The plant's mean squared error under a slope [d^2].</param>
    public static double Of(double place, double placeVariance, int springs, Func<double, double> errorOf)
    {
        var usual = LogLikelihood(place);
        double weights = AsThePlace, sum = AsThePlace * place;
        for (var tenth = 0; tenth < Tenths; tenth++)
        {
            var slope = place * tenth / Tenths;
            var weight = (1 - AsThePlace) / Tenths * Math.Exp(LogLikelihood(slope) - usual);
            weights += weight;
            sum += weight * slope;
        }
        return sum / weights;

        double LogLikelihood(double slope) => -(springs + PriorSprings) / 2 * Math.Log(PriorSprings * placeVariance + springs * errorOf(slope));
    }
}
