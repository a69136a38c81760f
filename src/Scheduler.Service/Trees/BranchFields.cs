using Scheduler.Domain.Trees;
using Scheduler.Service.Hosting;

namespace Scheduler.Service.Trees;

/// <summary>Reads the branches of a tree that differ from the rest of it.</summary>
internal static class BranchFields
{
    private const int MostBranches = 50;

    /// <summary>Null when the list as a whole is no good; faults within it are told one by one.</summary>
    public static IReadOnlyList<Branch>? List(FieldValue value)
    {
        if (value.List(MostBranches, Read) is not { } branches)
            return null;
        var twice = branches.GroupBy(branch => branch.Id).FirstOrDefault(same => same.Count() > 1);
        return twice is null ? branches : value.Refuse<IReadOnlyList<Branch>>($"name each branch once, '{twice.Key}' is there {twice.Count()} times");
    }

    private static Branch? Read(FieldValue value)
    {
        if (value.Object() is not { } fields)
            return null;
        var branch = new Branch
        {
            Id = fields.Required("id", null, field => field.Text(50)),
            CrownZone = fields.Optional("crownZone", null, field => field.Choice<CrownZone>()),
            Stage = fields.Optional("stage", null, field => field.Choice<TreeStage>()),
            Goals = fields.Optional("goals", null, TreeFields.Goals),
            Density = fields.Optional("density", null, field => field.Whole(0, 3)),
            Girth = fields.Optional("girth", null, field => field.Choice<Girth>()),
            Role = fields.Optional("role", null, field => field.Choice<BranchRole>()),
            Wired = fields.Optional("wired", null, field => field.Flag()),
            ThicknessMm = fields.Optional("thicknessMm", null, field => field.Number(0, 2000, "mm")),
            Fault = fields.Optional("fault", null, field => field.Text(200))
        };
        fields.RefuseUnknown();
        return branch;
    }
}
