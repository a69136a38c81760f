using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.Options;
using NodaTime;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Accounts;

/// <summary>Signing up, and the account itself.</summary>
public static class AccountsApi
{
    internal const int MaxName = 200;

    public static void AddAccounts(this WebApplicationBuilder builder)
    {
        builder.Services.AddOptions<AccountsOptions>().BindConfiguration("Accounts")
            .PostConfigure<IConfiguration>((options, configuration) =>
                options.SignUp ??= configuration.OnlyLoopback() ? AccountsOptions.Open : AccountsOptions.Invited)
            .Validate(
                options => options.SignUp is AccountsOptions.Open or AccountsOptions.Invited or AccountsOptions.Closed,
                "Accounts:SignUp must be open, invited or closed.")
            .ValidateOnStart();
        builder.Services.AddSingleton<AccountStore>();
        builder.Services.AddSingleton<KeyStore>();
        builder.Services.AddSingleton<AccountExport>();
        builder.Services.AddSingleton<AccountImport>();
        builder.Services.AddSingleton<AccountTransfer>();
        builder.Services.AddSingleton<DocumentReader>();
        builder.Services.AddAuthentication(BearerKeys.SchemeName).AddScheme<AuthenticationSchemeOptions, BearerKeys>(BearerKeys.SchemeName, null);
        builder.Services.AddAuthorization();
    }

    public static void MapAccounts(this WebApplication app)
    {
        app.MapOpen("accounts").MapPost("/accounts", SignUpAsync).RequireRateLimiting(RateLimits.SignUp)
            .Accepts<SignUpRequest>("application/json").ProducesProblem(StatusCodes.Status403Forbidden)
            .WithSummary("Opens an account. The access key is shown once.");
        var mine = app.MapOwned("accounts");
        mine.MapGet("/accounts/me", MeAsync).WithSummary("Who am I.");
        mine.MapPatch("/accounts/me", ChangeAsync).Accepts<AccountRequest>("application/json")
            .WithSummary("Changes my name, or how pages are shown to me: units and language. Fields left out stay; null leaves the choice to the browser.");
        mine.MapDelete("/accounts/me", EraseAsync).WithSummary("Erases everything I have here.");
        mine.MapAccountSettings();
        mine.MapKeys();
        mine.MapTransfer();
    }

    private static async Task<Results<Created<SignedUp>, ProblemHttpResult>> SignUpAsync(
        JsonBody body, IOptions<AccountsOptions> options, AccountStore accounts, IClock clock, CancellationToken cancel)
    {
        var fields = body.Fields();
        var name = fields.Required("name", null, value => value.Text(MaxName));
        var invitation = fields.Optional("invitation", null, value => value.Text(MaxName));
        if (fields.Refusal() is { } refusal)
            return refusal;
        if (NotWelcome(options.Value, invitation) is { } refused)
            return refused;
        var account = new Account { Id = NewId.Next(), Name = name, CreatedAt = clock.GetCurrentInstant() };
        var (key, shown) = KeysApi.NewKey(account.Id, "first key", account.CreatedAt);
        await accounts.AddAsync(account, key, cancel);
        return TypedResults.Created($"{Api.Root}/accounts/me", new SignedUp(account.Id, account.Name, shown));
    }

    private static ProblemHttpResult? NotWelcome(AccountsOptions options, string? invitation) => options.SignUp switch
    {
        AccountsOptions.Open => null,
        AccountsOptions.Closed => Problems.Forbidden("This service takes no new accounts.", new FaultKind("sign-up-closed")),
        _ when string.IsNullOrEmpty(options.Invitation) => Problems.Forbidden(
            "Sign-up is by invitation, and whoever runs this service has set no code (Accounts:Invitation).", new FaultKind("invitation-unset")),
        _ => Same(options.Invitation, invitation ?? "") ? null
            : Problems.Forbidden("Sign-up is by invitation: give the right code as 'invitation'.", new FaultKind("invitation-wrong"))
    };

    private static bool Same(string code, string given) =>
        CryptographicOperations.FixedTimeEquals(SHA256.HashData(Encoding.UTF8.GetBytes(code)), SHA256.HashData(Encoding.UTF8.GetBytes(given)));

    private static async Task<Results<Ok<AccountAnswer>, ProblemHttpResult>> MeAsync(Caller caller, AccountStore accounts, CancellationToken cancel) =>
        await accounts.FindAsync(caller.AccountId, cancel) is { } account
            ? TypedResults.Ok(AccountAnswer.Of(account))
            : Problems.NotFound();

    private static async Task<Results<Ok<AccountAnswer>, ProblemHttpResult>> ChangeAsync(JsonBody body, Caller caller, AccountStore accounts, CancellationToken cancel)
    {
        if (await accounts.FindAsync(caller.AccountId, cancel) is not { } account)
            return Problems.NotFound();
        var fields = body.Fields();
        var changed = OwnerReading.Read(fields, account);
        if (fields.Refusal() is { } refusal)
            return refusal;
        await accounts.ChangeAsync(changed, cancel);
        return TypedResults.Ok(AccountAnswer.Of(changed));
    }

    private static async Task<NoContent> EraseAsync(Caller caller, AccountStore accounts)
    {
        await accounts.EraseAsync(caller.AccountId);
        return TypedResults.NoContent();
    }
}

/// <param name="Name">How the owner wants to be called, at most 200 characters.</param>
/// <param name="Invitation">The code, where sign-up is by invitation.</param>
public sealed record SignUpRequest(string Name, string? Invitation);

/// <param name="AccessKey">Shown this once; the service keeps only its hash.</param>
public sealed record SignedUp(Guid Id, string Name, string AccessKey);

/// <param name="Units">How pages show temperature, rain and height: <c>metric</c> or <c>imperial</c>; null: as the browser's language suggests.</param>
/// <param name="Language">Of the pages; null: the browser's.</param>
public sealed record AccountAnswer(Guid Id, string Name, string? Units, string? Language, Instant CreatedAt)
{
    public static AccountAnswer Of(Account account)
    {
        ArgumentNullException.ThrowIfNull(account);
        return new AccountAnswer(account.Id, account.Name, account.Units, account.Language, account.CreatedAt);
    }
}

/// <param name="Units"><c>metric</c> or <c>imperial</c>.</param>
/// <param name="Language"><c>en</c> or <c>de</c>.</param>
public sealed record AccountRequest(string? Name, string? Units, string? Language);
