using System.ComponentModel;
using System.Diagnostics;
using System.Runtime.InteropServices;

namespace Scheduler.Benchmarks.Support;

/// <summary>The functions of scalar.c, built by gcc -O3 into a shared library when first asked for.</summary>
internal sealed class ScalarC
{
    public const string Absent = "gcc is absent here: not compared with C";

    private static readonly Lazy<ScalarC?> Once = new(Build);

    private ScalarC(nint library)
    {
        ChillPortions = Function<Chill>(library, "chill_portions");
        SingleSine = Function<Sine>(library, "single_sine");
    }

    public delegate void Chill(double[] minC, double[] maxC, int days, double[] total);

    public delegate void Sine(double[] minC, double[] maxC, int days, double baseC, double[] total);

    /// <summary>Null where there is no gcc.</summary>
    public static ScalarC? Library => Once.Value;

    public Chill ChillPortions { get; }

    public Sine SingleSine { get; }

    private static T Function<T>(nint library, string name)
        where T : Delegate => Marshal.GetDelegateForFunctionPointer<T>(NativeLibrary.GetExport(library, name));

    private static ScalarC? Build()
    {
        var folder = Directory.CreateTempSubdirectory("scalar-c-").FullName;
        var (source, library) = (Path.Combine(folder, "scalar.c"), Path.Combine(folder, "libscalar.so"));
        using (var code = typeof(ScalarC).Assembly.GetManifestResourceStream("scalar.c")!)
        using (var file = File.Create(source))
            code.CopyTo(file);
        try
        {
            using var gcc = Process.Start("gcc", ["-O3", "-shared", "-fPIC", "-o", library, source, "-lm"]);
            gcc.WaitForExit();
            return gcc.ExitCode == 0
                ? new ScalarC(NativeLibrary.Load(library))
                : throw new InvalidOperationException($"gcc could not build {source}.");
        }
        catch (Win32Exception)
        {
            return null;
        }
        finally
        {
            // A loaded library stays in memory without its file.
            Directory.Delete(folder, recursive: true);
        }
    }
}
