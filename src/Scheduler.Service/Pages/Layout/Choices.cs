using Scheduler.Domain.Trees;
using Scheduler.Service.Pages.Frame;

namespace Scheduler.Service.Pages.Layout;

/// <summary>Lists to choose from, in the owner's words.</summary>
public static class Choices
{
    /// <summary>All values of an enum; its texts are <c>Name.id</c>.</summary>
    public static IReadOnlyList<(string Value, string Text)> Of<T>(PageContext page, bool isOptional = false) where T : struct, Enum
    {
        ArgumentNullException.ThrowIfNull(page);
        var all = Ids.All<T>().Select(id => (id, page.Word<T>(id)));
        return isOptional ? [("", page["Choice.None"]), .. all] : [.. all];
    }

    /// <summary>Yes, no, or not said.</summary>
    public static IReadOnlyList<(string Value, string Text)> YesNo(PageContext page)
    {
        ArgumentNullException.ThrowIfNull(page);
        return [("", page["Choice.None"]), ("true", page["Choice.Yes"]), ("false", page["Choice.No"])];
    }
}
