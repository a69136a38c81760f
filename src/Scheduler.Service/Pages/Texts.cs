namespace Scheduler.Service.Pages;

/// <summary>
/// Names the texts of the pages: <c>Texts.resx</c> is English and complete, <c>Texts.de.resx</c> German and complete. What the catalog
/// says (reasons, amounts, titles of windows) stays as the catalog has it.
/// </summary>
public sealed class Texts;
