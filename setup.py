"""The part of the build that pyproject.toml cannot say: the kernel in C, and its compiler options.

It is optional: without a compiler the package is built without it, and the days take NumPy.
"""

from __future__ import annotations

from setuptools import Extension, setup
from setuptools.command.build_ext import build_ext

KERNEL = "src/doughwright/science/kernels"
# No digit may depend on the compiler: no contraction, no reordering. Errno and traps are what nobody reads.
GNU = ["-std=c11", "-O3", "-ffp-contract=off", "-fno-math-errno", "-fno-trapping-math"]
MICROSOFT = ["/std:c11", "/O2", "/fp:precise"]


class BuildKernel(build_ext):
    """Builds extensions with the options that the compiler understands."""

    def build_extensions(self) -> None:
        """Give each extension its options, then build it."""
        options = MICROSOFT if self.compiler.compiler_type == "msvc" else GNU
        for one in self.extensions:
            one.extra_compile_args = options
        super().build_extensions()


setup(
    cmdclass={"build_ext": BuildKernel},
    ext_modules=[
        Extension(
            "doughwright.science.kernels._core",
            sources=[f"{KERNEL}/{one}.c" for one in ("_binding", "_bake_binding", "core", "bake_core")],
            depends=[f"{KERNEL}/{one}.h" for one in ("_bake_binding", "core", "bake_core", "vector")],
            py_limited_api=True,
            optional=True,
        )
    ],
    options={"bdist_wheel": {"py_limited_api": "cp311"}},
)
