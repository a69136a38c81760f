using Scheduler.Service.Roads;

namespace Scheduler.Service.Tests.Roads;

public class MailOptionsTests
{
    [Theory]
    [InlineData(null, null, "starttls", null, null, 0)]
    [InlineData("smtp.example", "Scheduler <trees@garden.example>", "starttls", "user", "word", 0)]
    [InlineData("127.0.0.1", "trees@garden.example", "none", null, null, 0)]
    [InlineData("localhost", "trees@garden.example", "none", null, null, 0)]
    [InlineData("smtp.example", null, "tls", null, null, 1)]
    [InlineData("smtp.example", "trees@garden.example", "none", null, null, 1)]
    [InlineData("smtp.example", "trees@garden.example", "tls", "user", null, 1)]
    [InlineData("smtp.example", "nobody", "ssl", null, "word", 3)]
    public void Settings_AreCheckedAllAtOnce(string? host, string? from, string security, string? user, string? password, int faults)
    {
        var result = new MailOptionsValidator().Validate(null, new MailOptions { Host = host, From = from, Security = security, User = user, Password = password });
        Assert.Equal(faults, result.Failures?.Count() ?? 0);
    }

    [Fact]
    public void Sender_IsReadWithItsName()
    {
        var options = new MailOptions { From = "Scheduler <trees@garden.example>" };
        Assert.Equal("trees@garden.example", options.FromAddress);
    }
}
