namespace Scheduler.Service.Pages.SignIn;

/// <summary>Sign-in through an OpenID Connect provider (<c>SignIn:Oidc</c> in the settings). Default: none.</summary>
public sealed class OidcOptions
{
    /// <summary>Issuer, a full https address (http only on this machine), whose discovery document is read; null: no such sign-in.</summary>
    public string? Authority { get; set; }

    /// <summary>As the provider registered this service.</summary>
    public string? ClientId { get; set; }

    public string? ClientSecret { get; set; }

    /// <summary>What the button calls the provider. Default: the authority's host.</summary>
    public string? Name { get; set; }

    public bool IsOn => !string.IsNullOrEmpty(Authority);

    public string Shown => Name ?? (Uri.TryCreate(Authority, UriKind.Absolute, out var url) ? url.Host : "");

    internal bool IsSound => !IsOn || (Uri.TryCreate(Authority, UriKind.Absolute, out var url) && (url.Scheme == "https" || (url.Scheme == "http" && url.IsLoopback))
        && !string.IsNullOrEmpty(ClientId) && !string.IsNullOrEmpty(ClientSecret));
}
