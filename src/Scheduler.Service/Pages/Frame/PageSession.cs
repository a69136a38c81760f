using Scheduler.Service.Hosting;

namespace Scheduler.Service.Pages.Frame;

/// <summary>
/// Tells one sign-in from another without saying whose it is, so that a browser's store keeps what belongs together: first the owner,
/// then the sign-in.
/// </summary>
public static class PageSession
{
    public const string Header = "Page-Session";
    private const int Length = 16;

    public static string Of(Caller caller)
    {
        ArgumentNullException.ThrowIfNull(caller);
        return $"{OwnerOf(caller)}-{Print($"{caller.AccountId:N} {caller.KeyId:N}")}";
    }

    public static string OwnerOf(Caller caller)
    {
        ArgumentNullException.ThrowIfNull(caller);
        return Print($"{caller.AccountId:N}");
    }

    private static string Print(string text) => Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(text)))[..Length];
}
