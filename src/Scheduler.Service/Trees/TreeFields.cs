using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Trees;

/// <summary>Reads a tree out of a request body.</summary>
public sealed class TreeFields(ISpeciesNames species, ITechniqueNames techniques, SettingFields settings)
{
    /// <summary>Owners may log old notebooks; nothing before this is plausible for a living tree's log.</summary>
    internal static readonly LocalDate Earliest = new(1800, 1, 1);
    private static readonly LocalDate FarAhead = new(2200, 12, 31);

    /// <summary>A new tree, or a changed one when <paramref name="current"/> is given.</summary>
    /// <param name="today">Local date of the garden: what happened lies no later.</param>
    public Tree Read(FieldReader fields, Tree? current, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(fields);
        return new Tree
        {
            Id = current?.Id ?? NewId.Next(),
            Name = fields.Required("name", current?.Name, value => value.Text(200)),
            SpeciesId = fields.Required("species", current?.SpeciesId, value => value.Known(species.Exists, species.Nearest)),
            Cultivar = fields.Optional("cultivar", current?.Cultivar, value => value.Text(200)),
            Stage = fields.Required("stage", current?.Stage, value => value.Choice<TreeStage>()),
            Goals = fields.Required("goals", current?.Goals, Goals),
            Placement = fields.Required("placement", current?.Placement, value => value.Choice<Placement>()),
            Size = fields.Required("size", current?.Size, value => value.Choice<TreeSize>()),
            Health = fields.Required("health", current?.Health, value => value.Choice<Health>()),
            RepottedOn = fields.Optional("repottedOn", current?.RepottedOn, value => value.Date(Earliest, today)),
            Notes = fields.Optional("notes", current?.Notes, value => value.Text(10_000, lines: true)),
            Group = fields.Optional("group", current?.Group, value => value.OneOf(species.Groups)),
            Settings = fields.Optional("settings", current?.Settings, settings.Read) ?? new Dictionary<string, string>(),
            Requests = fields.Optional("requests", current?.Requests, value => value.List(30, Request)) ?? [],
            RootWorkKnown = fields.Optional("rootWorkKnown", current?.RootWorkKnown, value => value.Flag()),
            DoNotTouchUntil = fields.Optional("doNotTouchUntil", current?.DoNotTouchUntil, value => value.Date(Earliest, FarAhead)),
            Origin = fields.Optional("origin", current?.Origin, value => OriginOf(value, today)),
            Branches = fields.Optional("branches", current?.Branches, BranchFields.List) ?? []
        };
    }

    internal static IReadOnlyList<Goal>? Goals(FieldValue value)
    {
        if (value.List(Enum.GetValues<Goal>().Length, item => item.Choice<Goal>()) is not { } goals)
            return null;
        return goals.Distinct().Count() == goals.Count ? goals : value.Refuse<IReadOnlyList<Goal>>("name each goal once", new FaultKind("twice"));
    }

    private TechniqueRequest? Request(FieldValue value)
    {
        if (value.Object() is not { } fields)
            return null;
        var technique = fields.Required("technique", null, field => field.Known(techniques.Exists, techniques.Nearest));
        var aim = fields.Optional("aim", null, field => field.Text(200));
        fields.RefuseUnknown();
        return new TechniqueRequest(technique, aim);
    }

    private static Origin? OriginOf(FieldValue value, LocalDate today)
    {
        if (value.Object() is not { } fields)
            return null;
        var kind = fields.Required("kind", null, field => field.Choice<OriginKind>());
        var date = fields.Required("date", null, field => field.Date(Earliest, today));
        fields.RefuseUnknown();
        return new Origin(kind, date);
    }
}
