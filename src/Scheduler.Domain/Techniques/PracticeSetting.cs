using Scheduler.Domain.Phenology;

namespace Scheduler.Domain.Techniques;

/// <summary>A point on which growers disagree, so that the owner chooses (config/settings.yaml).</summary>
/// <param name="Number">Its permanent number, as text.</param>
/// <param name="Alias">A second name, such as <c>outline</c>.</param>
/// <param name="Choices">What each choice means, by id.</param>
/// <param name="Default">Id of the choice that counts when the owner made none.</param>
public sealed record PracticeSetting(
    string Number, string? Alias, string Question, IReadOnlyDictionary<string, string> Choices, string Default, Provenance Provenance, string? Source = null)
{
    private const string Yes = "yes";
    private const string No = "no";

    /// <summary>The point can be answered with true or false as well.</summary>
    public bool IsYesNo => Choices.Count == 2 && Choices.ContainsKey(Yes) && Choices.ContainsKey(No);

    public bool IsNamed(string name) => name == Number || name == Alias;

    /// <summary>The id of the choice that a kept text means; null: none.</summary>
    public string? ChoiceOf(string text) => (text, IsYesNo) switch
    {
        ("true", true) => Yes,
        ("false", true) => No,
        _ => Choices.ContainsKey(text) ? text : null
    };
}
