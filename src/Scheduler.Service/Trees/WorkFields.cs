using NodaTime;
using Scheduler.Domain.Trees;
using Scheduler.Service.Hosting;
using Scheduler.Service.Storage;

namespace Scheduler.Service.Trees;

/// <summary>Reads a work record out of a request body.</summary>
public sealed class WorkFields(ITechniqueNames techniques)
{
    private static readonly string[] Results = ["strong", "normal", "weak"];

    public WorkRecord Read(FieldReader fields, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(fields);
        var technique = fields.Required("technique", null, value => value.Known(techniques.Exists, techniques.Nearest));
        var work = new WorkRecord
        {
            Id = NewId.Next(),
            Technique = technique,
            Date = fields.Required("date", null, value => value.Date(TreeFields.Earliest, today)),
            Extent = fields.Optional("extent", null, value => value.Choice<Extent>()),
            Mode = fields.Optional("mode", null, value => Mode(value, technique)),
            CrownZone = fields.Optional("crownZone", null, value => value.Choice<CrownZone>()),
            Branch = fields.Optional("branch", null, value => value.Text(50)),
            Minutes = fields.Optional("minutes", null, value => value.Whole(0, 10_000, "minutes")),
            RootPercent = fields.Optional("rootPercent", null, value => value.Number(0, 100, "%")),
            LivingTopPercent = fields.Optional("livingTopPercent", null, value => value.Number(0, 100, "%")),
            Result = fields.Optional("result", null, value => value.OneOf(Results)),
            Finished = fields.Optional("finished", null, value => value.Flag()),
            Notes = fields.Optional("notes", null, value => value.Text(10_000, lines: true))
        };
        if (work.Extent is Extent.Strong && technique is not (null or "feeding"))
            fields.Fault("extent", "is 'strong', which only feeding can be: use one of none, light, normal, hard.", new FaultKind("choice"));
        return work;
    }

    private string? Mode(FieldValue value, string? technique)
    {
        var modes = techniques.Modes(technique);
        return modes.Count == 0 ? value.Refuse<string>($"leave it out, {technique} has no modes", new FaultKind("no-modes")) : value.OneOf(modes);
    }
}

/// <summary>What may be sent of work done.</summary>
/// <param name="Date">No later than today at the garden.</param>
/// <param name="Extent">Repotting: none, light, normal or hard. Feeding: also strong.</param>
/// <param name="Mode">One of the technique's modes, if it has any.</param>
/// <param name="RootPercent">Share of the roots removed [%].</param>
/// <param name="LivingTopPercent">Share of the living top removed [%].</param>
/// <param name="Result">How the tree answered: strong, normal or weak.</param>
/// <param name="Finished">Work of several sessions: true, nothing is left to do; false, there is more. Left out: it is done after the fewest sessions of its technique.</param>
public sealed record WorkRequest(
    string Technique, LocalDate Date, Extent? Extent, string? Mode, CrownZone? CrownZone, string? Branch, int? Minutes, double? RootPercent,
    double? LivingTopPercent, string? Result, bool? Finished, string? Notes);
