using System.Text;
using Scheduler.Service.Roads;

namespace Scheduler.Service.Tests.Roads;

public class WebhookSignatureTests
{
    // The worked example of the open Standard Webhooks specification and its reference implementations (from memory; it computes).
    [Fact]
    public void Signature_OfTheSpecificationsExample_IsTheirs() => Assert.Equal(
        "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=",
        WebhookSignature.Of("whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw", "msg_p5jXN8AQM9LWM0D4loKWxJek", "1614265330", Encoding.UTF8.GetBytes("{\"test\": 2432232314}")));

    [Fact]
    public void Secrets_AreOf32Bytes_AndDiffer()
    {
        var secret = WebhookSignature.NewSecret();
        Assert.Equal(32, Convert.FromBase64String(secret["whsec_".Length..]).Length);
        Assert.NotEqual(secret, WebhookSignature.NewSecret());
    }
}
