using System.Security.Claims;

namespace Scheduler.Service.Hosting;

/// <summary>Who asks: the account, and which of its access keys was shown.</summary>
public sealed record Caller(Guid AccountId, Guid KeyId)
{
    public const string AccountClaim = "account";
    public const string KeyClaim = "key";

    public static Caller? Of(ClaimsPrincipal user)
    {
        ArgumentNullException.ThrowIfNull(user);
        return Guid.TryParse(user.FindFirstValue(AccountClaim), out var account) && Guid.TryParse(user.FindFirstValue(KeyClaim), out var key)
            ? new Caller(account, key)
            : null;
    }

    /// <summary>Called by the framework to bind a handler's parameter; addresses that take a caller require a key.</summary>
    public static ValueTask<Caller?> BindAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        return ValueTask.FromResult(Of(context.User));
    }
}
