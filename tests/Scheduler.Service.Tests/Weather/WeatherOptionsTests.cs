using System.Text;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;
using Scheduler.Service.Weather;

namespace Scheduler.Service.Tests.Weather;

public sealed class WeatherOptionsTests
{
    private static WeatherOptions Read(string json)
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(json));
        var configuration = new ConfigurationBuilder().AddJsonStream(stream).Build();
        var services = new ServiceCollection().AddWeather(configuration).BuildServiceProvider();
        return services.GetRequiredService<IOptions<WeatherOptions>>().Value;
    }

    [Theory]
    [InlineData("{}", "open-meteo,met-norway")]
    [InlineData("""{"Weather":{"RefreshEvery":"PT3H"}}""", "open-meteo,met-norway")]
    [InlineData("""{"Weather":{"OpenMeteo":{},"MetNorway":{"UserAgent":null}}}""", "open-meteo,met-norway")]
    [InlineData("""{"Weather":{"Sources":["recorded"]}}""", "recorded")]
    [InlineData("""{"Weather":{"Sources":["met-norway","open-meteo"]}}""", "met-norway,open-meteo")]
    [InlineData("""{"Weather":{"Sources":[]}}""", "")]
    [InlineData("""{"Weather":{"Sources":""}}""", "")]
    [InlineData("""{"Weather":{"Sources":"open-meteo, recorded"}}""", "open-meteo,recorded")]
    public void Sources_EveryWayToSayThem_AreRead(string json, string expected) =>
        Assert.Equal(expected, string.Join(",", Read(json).Sources));

    [Fact]
    public void Settings_ManyFaults_AreAllNamedAtOnce()
    {
        var fault = Assert.Throws<OptionsValidationException>(() => Read(
            """
            {"Weather":{"Sources":["open-meteo","oracle","open-meteo"],"RefreshEvery":"6 hours","RetryAfter":"PT2M","RecordedFolder":"",
             "OpenMeteo":{"ForecastUrl":"api","ArchiveUrl":"https://a.example.org/v1?x=1","GeocodingUrl":"ftp://a.example.org","ApiKey":"a\nb"},
             "MetNorway":{"Url":"","UserAgent":"me\nyou"}}}
            """));
        Assert.Equal(
            ["Sources", "Sources", "RefreshEvery", "RetryAfter", "RecordedFolder", "OpenMeteo:ForecastUrl", "OpenMeteo:ArchiveUrl",
                "OpenMeteo:GeocodingUrl", "MetNorway:Url", "MetNorway:UserAgent", "OpenMeteo:ApiKey"],
            fault.Failures.Select(failure => failure.Split(' ')[0]["Weather:".Length..]));
    }

    [Theory]
    [InlineData("PT0S", true)]
    [InlineData("P1D", true)]
    [InlineData("PT15M", true)]
    [InlineData("PT14M", false)]
    [InlineData("-PT6H", false)]
    [InlineData("P1M", false)]
    [InlineData("06:00", false)]
    public void RefreshEvery_Text_IsCheckedAtStart(string text, bool valid) =>
        Assert.Equal(valid, new WeatherOptionsValidator().Validate(null, new WeatherOptions { RefreshEvery = text }).Succeeded);
}
