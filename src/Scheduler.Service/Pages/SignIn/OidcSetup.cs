using Microsoft.AspNetCore.Authentication.OpenIdConnect;
using Microsoft.IdentityModel.Protocols.OpenIdConnect;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Pages.SignIn;

/// <summary>
/// The authorization code flow with PKCE (RFC 6749, RFC 7636, OpenID Connect Core). The provider only says who came; what they may do
/// follows from the account that this identity is linked to.
/// </summary>
public static class OidcSetup
{
    public const string SchemeName = "oidc";

    /// <summary>Keeps who came from the provider for the minutes until they are signed in.</summary>
    public const string CameScheme = "came";

    private const string Callback = "/sign-in/oidc/callback";
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(15);

    public static void AddOidc(this WebApplicationBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        builder.Services.AddSingleton<SignInStore>();
        builder.Services.AddOptions<OidcOptions>().BindConfiguration("SignIn:Oidc")
            .Validate(options => options.IsSound, "SignIn:Oidc needs Authority (a full https address), ClientId and ClientSecret, all three or none.")
            .ValidateOnStart();
        var oidc = builder.Configuration.GetSection("SignIn:Oidc").Get<OidcOptions>();
        if (oidc is not { IsOn: true, IsSound: true })
            return;
        var isSecure = PageCookie.NeedsHttps(builder.Configuration);
        var publicUrl = builder.Configuration["PublicUrl"]?.TrimEnd('/');
        builder.Services.AddAuthentication()
            .AddCookie(CameScheme, options =>
            {
                PageCookie.Harden(options.Cookie, "came", isSecure);
                options.ExpireTimeSpan = Patience;
                options.SlidingExpiration = false;
            })
            .AddOpenIdConnect(SchemeName, options =>
            {
                options.SignInScheme = CameScheme;
                options.Authority = oidc.Authority;
                options.RequireHttpsMetadata = !new Uri(oidc.Authority!).IsLoopback;
                options.ClientId = oidc.ClientId;
                options.ClientSecret = oidc.ClientSecret;
                options.CallbackPath = Callback;
                options.ResponseType = OpenIdConnectResponseType.Code;
                // Posted back from elsewhere, the cookies that prove who asked would have to go with requests of any site.
                options.ResponseMode = OpenIdConnectResponseMode.Query;
                options.UsePkce = true;
                options.MapInboundClaims = false;
                // Half of what names somebody; the handler would drop it.
                options.ClaimActions.Remove("iss");
                options.DisableTelemetry = true;
                options.RemoteAuthenticationTimeout = Patience;
                foreach (var cookie in new[] { options.CorrelationCookie, options.NonceCookie })
                {
                    cookie.SameSite = SameSiteMode.Lax;
                    cookie.SecurePolicy = isSecure ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
                }
                options.Events = new OpenIdConnectEvents
                {
                    OnRedirectToIdentityProvider = context =>
                    {
                        if (!string.IsNullOrEmpty(publicUrl))
                            context.ProtocolMessage.RedirectUri = publicUrl + Callback;
                        return Task.CompletedTask;
                    },
                    OnRemoteFailure = context =>
                    {
                        context.Response.Redirect("/sign-in?oidc=failed");
                        context.HandleResponse();
                        return Task.CompletedTask;
                    }
                };
            });
    }
}
