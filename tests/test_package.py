"""The package as it is built: its files, its dependencies, and that it runs from any folder."""

from __future__ import annotations

import ast
import os
import re
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest

from drafting.version import VERSION

ROOT = Path(__file__).parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def build(target: str, source: Path, out: Path) -> Path:
    """The one file that building `target` from `source` gives."""
    done = subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", target, "-d", str(out)],
        cwd=source,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    (built,) = out.iterdir()
    return built


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build("wheel", ROOT, tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel laid out as an install does."""
    place = tmp_path_factory.mktemp("installed")
    zipfile.ZipFile(wheel).extractall(place)
    return place


def run_installed(installed: Path, folder: Path, *words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "drafting", *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(installed)},
        capture_output=True,
        text=True,
    )


def project_files(folder: str) -> set[str]:
    return {path.relative_to(ROOT).as_posix() for path in (ROOT / folder).rglob("*") if path.is_file()}


def test_the_wheel_holds_the_package_the_grammar_and_the_patterns(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    sources = {name for name in project_files("drafting") if name.endswith(".py")}
    data = {f"drafting/{name}" for name in project_files("grammar") | project_files("patterns")}
    assert data and sources <= names and data <= names
    assert "drafting/py.typed" in names
    assert all(name.startswith(("drafting/", f"awlwright-{VERSION}.dist-info/")) for name in names)


def test_the_installed_wheel_runs_from_any_folder(installed: Path, tmp_path: Path) -> None:
    """Its starters are there, and one of them is fit to be checked: the grammar is there too."""
    starters = run_installed(installed, tmp_path, "new", "--list").stdout.split("\n")[:-1]
    brought = [path for folder in ("", "hides") for path in (ROOT / "patterns" / folder).glob("*.draft")]
    assert len(starters) == len(brought) > 0
    assert run_installed(installed, tmp_path, "new", "tag", "--from", starters[0].split()[0]).returncode == 0
    checked = run_installed(installed, tmp_path, "check", "tag.draft")
    assert (checked.returncode, checked.stderr) == (0, "")


def test_the_sdist_builds_the_same_wheel(wheel: Path, tmp_path: Path) -> None:
    sdist = build("sdist", ROOT, tmp_path / "sdist")
    shutil.unpack_archive(sdist, tmp_path / "unpacked")
    (source,) = (tmp_path / "unpacked").iterdir()
    again = build("wheel", source, tmp_path / "wheel")
    assert again.read_bytes() == wheel.read_bytes()


def test_every_dependency_has_its_reason() -> None:
    """The tables of DEVELOPERS.md and pyproject.toml name the same."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").split("## Dependencies")[1]
    told = re.findall(r"^\| `([^`]+)` \| .+ \|$", text, re.MULTILINE)
    optional = PROJECT["optional-dependencies"]
    needed = [*PROJECT["dependencies"], *optional["cjk"], *optional["test"]]
    assert told == [re.split("[<>=]", requirement)[0] for requirement in needed]
    assert all(">=" in requirement for requirement in needed)


OTHERWISE_CALLED = {"bidi": "python-bidi", "fontTools": "fonttools"}
RUN_NOT_IMPORTED = {"hatchling", "import-linter", "mypy", "pytest-xdist", "ruff"}


def imported_in(folder: str) -> set[str]:
    """Distributions of others that the modules of `folder` import."""
    found: set[str] = set()
    for path in (ROOT / folder).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            match node:
                case ast.Import(names=names):
                    found |= {name.name.split(".")[0] for name in names}
                case ast.ImportFrom(module=str() as module, level=0):
                    found.add(module.split(".")[0])
                case ast.Call(func=ast.Name(id="find_spec"), args=[ast.Constant(value=str() as module)]):
                    found.add(module)
    found = {OTHERWISE_CALLED.get(name, name) for name in found}
    return {plain_name(name) for name in found - sys.stdlib_module_names - {"drafting", "tests"}}


def plain_name(requirement: str) -> str:
    return re.split("[<>=]", requirement)[0].lower().replace("-", "").replace("_", "")


def test_every_dependency_is_used_and_every_use_is_a_dependency() -> None:
    at_run_time = [*PROJECT["dependencies"], *PROJECT["optional-dependencies"]["cjk"]]
    needed = {plain_name(requirement) for requirement in at_run_time}
    for_tests = {plain_name(requirement) for requirement in PROJECT["optional-dependencies"]["test"]}
    assert imported_in("drafting") == needed
    used = imported_in("tests")
    assert used <= needed | for_tests
    assert for_tests - used <= {plain_name(name) for name in RUN_NOT_IMPORTED}


def test_the_python_face_imports_late() -> None:
    """Asking for the version or a help loads none of the heavy libraries."""
    heavy = "{'lark', 'sympy', 'numpy', 'shapely', 'svgwrite', 'svgelements', 'resvg_py'}"
    run = "import sys, drafting.cli.main; drafting.cli.main.main(['draw', '--help'])"
    asked = f"{run}; sys.exit(bool({heavy} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", asked], cwd=ROOT, capture_output=True)
    assert done.returncode == 0
