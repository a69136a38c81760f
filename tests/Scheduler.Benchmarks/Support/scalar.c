/* Plain C with the arithmetic of the domain, one day after the other, to measure against. Built with gcc -O3. */
#include <math.h>

/* Chill portions of the dynamic model at the end of each day, 24 hourly steps a day along the day sine. */
void chill_portions(const double *min_c, const double *max_c, int days, double *total)
{
    double share[24];
    for (int hour = 0; hour < 24; hour++)
        share[hour] = (1 + sin((hour - 8) * M_PI / 12)) / 2;
    double left = 0, portions = 0, last_c = 0;
    int has_last = 0;
    for (int day = 0; day < days; day++) {
        double range_c = max_c[day] - min_c[day];
        for (int hour = 0; hour < 24; hour++) {
            if (has_last) {
                double t = last_c + 273;
                double xs = 139500 / 2.567e18 * exp((12888.8 - 4153.5) / t);
                double k1 = 2.567e18 * exp(-12888.8 / t);
                double x = xs - (xs - left) * exp(-k1);
                if (x >= 1) {
                    double sr = exp(1.6 * 277 * (t - 277) / t);
                    double xi = sr / (1 + sr);
                    portions += x * xi;
                    x *= 1 - xi;
                }
                left = x;
            }
            last_c = min_c[day] + range_c * share[hour];
            has_last = !isnan(last_c);
        }
        total[day] = portions;
    }
}

/* Degree-days above a base up to each day by the single sine. */
void single_sine(const double *min_c, const double *max_c, int days, double base_c, double *total)
{
    double sum = 0;
    for (int day = 0; day < days; day++) {
        double low = min_c[day], high = max_c[day];
        if (!isnan(low)) {
            double mean = (low + high) / 2;
            if (low >= base_c)
                sum += mean - base_c;
            else if (high > base_c) {
                double half = (high - low) / 2;
                double sine = (base_c - mean) / half;
                double warm = ((mean - base_c) * acos(sine) + half * sqrt(1 - sine * sine)) / M_PI;
                if (warm > 0)
                    sum += warm;
            }
        }
        total[day] = sum;
    }
}
