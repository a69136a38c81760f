namespace Scheduler.Service.Accounts;

/// <summary>Who may open an account (<c>Accounts</c> in the settings).</summary>
public sealed class AccountsOptions
{
    public const string Open = "open";
    public const string Invited = "invited";
    public const string Closed = "closed";

    /// <summary><c>open</c>, <c>invited</c> or <c>closed</c>. Default: open while the service listens on loopback only, else invited.</summary>
    public string? SignUp { get; set; }

    /// <summary>The code that sign-up asks for under <c>invited</c>; none set: nobody can sign up. Default: none.</summary>
    public string? Invitation { get; set; }
}
