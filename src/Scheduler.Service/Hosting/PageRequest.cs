using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Scheduler.Service.Hosting;

/// <summary>The part of a list that is asked for: <c>?limit=</c> (1 to 200) items after the cursor <c>?after=</c>.</summary>
public sealed partial record PageRequest(int Limit, string After, ProblemHttpResult? Refusal)
{
    public const int UsualLimit = 50;
    public const int MaxLimit = 200;

    /// <summary>Called by the framework to bind a handler's parameter.</summary>
    public static ValueTask<PageRequest?> BindAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        var faults = new FieldFaults();
        var limit = UsualLimit;
        var query = context.Request.Query;
        if (query.TryGetValue("limit", out var limits)
            && (!int.TryParse(limits, NumberStyles.None, CultureInfo.InvariantCulture, out limit) || limit is < 1 or > MaxLimit))
        {
            faults.Add("limit", $"limit is '{FieldValue.Shorten(limits.ToString())}': give a whole number from 1 to {MaxLimit}, or leave it out.");
        }
        var after = query["after"].ToString();
        if (query.ContainsKey("after") && !Cursor().IsMatch(after))
            faults.Add("after", $"after is '{FieldValue.Shorten(after)}': give the 'next' of the page before, or leave it out.");
        return ValueTask.FromResult<PageRequest?>(new PageRequest(limit, after, faults.Any ? Problems.Invalid(faults) : null));
    }

    /// <summary>Cuts a list that was read one item too far, which tells whether there is a next page.</summary>
    public Page<TItem> Cut<TRow, TItem>(IReadOnlyList<TRow> rows, Func<TRow, string> cursor, Func<TRow, TItem> show)
    {
        ArgumentNullException.ThrowIfNull(rows);
        return new Page<TItem>([.. rows.Take(Limit).Select(show)], Next(rows, cursor));
    }

    /// <summary>The cursor of the next page of a list that was read one item too far.</summary>
    public string? Next<TRow>(IReadOnlyList<TRow> rows, Func<TRow, string> cursor)
    {
        ArgumentNullException.ThrowIfNull(rows);
        ArgumentNullException.ThrowIfNull(cursor);
        return rows.Count > Limit ? cursor(rows[Limit - 1]) : null;
    }

    // An id, or a date and an id: what the lists are ordered by.
    [GeneratedRegex("^([0-9]{4}-[0-9]{2}-[0-9]{2}_)?[0-9a-f]{32}$", RegexOptions.CultureInvariant)]
    private static partial Regex Cursor();
}

/// <summary>One page of a list; <see cref="Next"/> is the cursor of the next page, or null at the end.</summary>
public sealed record Page<T>(IReadOnlyList<T> Items, string? Next);
