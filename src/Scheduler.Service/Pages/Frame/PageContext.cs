using Microsoft.AspNetCore.Antiforgery;
using Microsoft.Extensions.Localization;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Pages.Frame;

/// <summary>What every component of one page may ask: who reads, how they read, and what a form needs to be taken.</summary>
public sealed class PageContext(IHttpContextAccessor accessor, IAntiforgery antiforgery, IStringLocalizer<Texts> texts)
{
    private AntiforgeryTokenSet? _tokens;

    public HttpContext Http => accessor.HttpContext ?? throw new InvalidOperationException("A page is only rendered within a request.");

    /// <summary>Set before the page's handler runs.</summary>
    public Locale Locale { get; internal set; } = null!;

    /// <summary>Null: nobody is signed in.</summary>
    public Caller? Caller => Caller.Of(Http.User);

    /// <summary>The signed-in owner; only for pages that ask for one.</summary>
    public Caller Owner => Caller ?? throw new InvalidOperationException("This page must ask for a signed-in owner.");

    public string Path => Http.Request.Path.Value ?? "/";

    /// <summary>A text of the pages in the owner's language. Values go in as they are to be read.</summary>
    public string this[string key, params object[] values] => texts[key, values];

    /// <summary>The same where there may be none: then null.</summary>
    public string? Find(string key, params object[] values) => texts[key, values] is { ResourceNotFound: false } found ? found.Value : null;

    /// <summary>A value of an enum in the owner's language.</summary>
    public string Word<T>(string id) where T : struct, Enum => texts[$"{typeof(T).Name}.{id}"];

    public string Word<T>(T value) where T : struct, Enum => Word<T>(Domain.Trees.Ids.Of(value));

    public string FormField => Tokens().FormFieldName;

    public string FormToken => Tokens().RequestToken!;

    /// <summary>A new key that makes a form count once however often it is sent.</summary>
    public static string NewFormKey() => Secrets.New("");

    /// <summary>The cookie of the form tokens has to be written before the page.</summary>
    internal AntiforgeryTokenSet Tokens() => _tokens ??= antiforgery.GetAndStoreTokens(Http);
}
