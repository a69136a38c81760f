namespace Scheduler.Service.Pages.Layout;

/// <summary>What is asked before something is gone for good.</summary>
/// <param name="Text">What will be gone, and what stays.</param>
/// <param name="Action">Where the button sends the form.</param>
/// <param name="Back">Where to go instead.</param>
/// <param name="Refusal">Why it could not be done just now; null: it was not tried yet.</param>
public sealed record Confirmation(string Title, string Text, string Do, string Action, string Back, string? Refusal = null);
