using Microsoft.AspNetCore.Http.HttpResults;
using Scheduler.Service.Gardens;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;
using Scheduler.Service.Trees;

namespace Scheduler.Service.Accounts;

/// <summary>The account's choices on points where practice disagrees. They hold for every tree that has no choice of its own.</summary>
public static class AccountSettingsApi
{
    public static void MapAccountSettings(this RouteGroupBuilder mine)
    {
        mine.MapGet("/accounts/me/settings", ReadAsync).WithSummary("My choices on points where practice disagrees; GET /settings explains the points.");
        mine.MapPut("/accounts/me/settings", ReplaceAsync).Accepts<AccountSettings>("application/json")
            .WithSummary("Replaces my choices; windows and feeds of all my gardens follow at once.");
    }

    private static async Task<Ok<AccountSettings>> ReadAsync(Caller caller, AccountStore accounts, CancellationToken cancel) =>
        TypedResults.Ok(new AccountSettings(SettingFields.Shown(await accounts.SettingsAsync(caller.AccountId, cancel))));

    private static async Task<Results<Ok<AccountSettings>, ProblemHttpResult>> ReplaceAsync(
        JsonBody body, Caller caller, AccountStore accounts, SettingFields reader, GardenFollowers followers, CancellationToken cancel)
    {
        var fields = body.Fields();
        var settings = fields.Required("settings", null, reader.Read);
        if (fields.Refusal() is { } refusal)
            return refusal;
        await accounts.SaveSettingsAsync(caller.AccountId, settings, cancel);
        await followers.ReplanAllAsync(caller.AccountId, []);
        return TypedResults.Ok(new AccountSettings(SettingFields.Shown(settings)));
    }
}

/// <param name="Settings">Choice by number or second name of the point; what is left out has its default.</param>
public sealed record AccountSettings(IReadOnlyDictionary<string, object> Settings);
