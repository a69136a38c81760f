using System.Text.Json.Nodes;
using NodaTime.Text;
using Scheduler.Domain.Trees;
using Scheduler.Service.Pages.Frame;
using Scheduler.Service.Pages.Layout;

namespace Scheduler.Service.Pages.Trees;

/// <summary>Between the form of a tree and what the API reads.</summary>
public sealed class TreeForms(SpeciesNames species)
{
    /// <summary>What most trees of most owners are, so that a first tree needs a name and a species only.</summary>
    public static FormState New(string? name = null) => FormState.With(
        ("name", name), ("stage", Ids.Of(TreeStage.Ramification)), ("health", Ids.Of(Health.Sound)), ("size", Ids.Of(TreeSize.M)), ("placement", Ids.Of(Placement.Open)));

    public FormState Of(Tree tree)
    {
        ArgumentNullException.ThrowIfNull(tree);
        return FormState.With(
        [
            ("name", tree.Name), ("species", species.Label(tree.SpeciesId)), ("cultivar", tree.Cultivar), ("stage", Ids.Of(tree.Stage)), ("health", Ids.Of(tree.Health)),
            ("size", Ids.Of(tree.Size)), ("placement", Ids.Of(tree.Placement)), ("notes", tree.Notes),
            ("repottedOn", tree.RepottedOn is { } day ? LocalDatePattern.Iso.Format(day) : null),
            ("doNotTouchUntil", tree.DoNotTouchUntil is { } until ? LocalDatePattern.Iso.Format(until) : null),
            .. tree.Goals.Select(goal => ("goals", (string?)Ids.Of(goal)))
        ]);
    }

    public JsonObject Json(FormBody form, PageContext page, bool isChange)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(page);
        var json = form.Json(page.Locale.Culture, isChange)
            .Text("name", "species", "stage", "health", "size", "placement", "cultivar", "repottedOn", "doNotTouchUntil", "notes").List("goals").Object;
        if (species.Find(form["species"]) is { } id)
            json["species"] = id;
        return json;
    }

    /// <summary>The refused form; a species that nobody knows is answered with names instead of ids.</summary>
    public FormState Refused(FormBody form, ApiAnswer answer, PageContext page)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(page);
        var typed = form["species"];
        return typed is null || !answer.Faults.ContainsKey("species")
            ? FormState.Refused(form, answer)
            : FormState.Refused(form, answer with
            {
                Faults = answer.Faults.ToDictionary(pair => pair.Key, pair => pair.Key == "species" ? [page["Tree.NoSpecies", string.Join(", ", species.Nearest(typed))]] : pair.Value)
            });
    }
}
