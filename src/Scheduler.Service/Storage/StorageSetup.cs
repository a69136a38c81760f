namespace Scheduler.Service.Storage;

/// <summary>Registers the database; each folder registers the stores it uses.</summary>
public static class StorageSetup
{
    public static void AddStorage(this WebApplicationBuilder builder)
    {
        builder.Services.AddOptions<StorageOptions>().BindConfiguration("Storage");
        builder.Services.AddSingleton<Database>();
        builder.Services.AddSingleton<AnswerStore>();
    }
}
