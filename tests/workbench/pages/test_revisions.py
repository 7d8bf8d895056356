"""Saved states, named, compared and restored on their page."""

from tests.workbench.asking import act


def name_compare_and_restore_the_first(page, name, added):
    field = page.get_by_label("Name of revision 1")
    field.fill(name)
    field.press("Enter")
    page.wait_for_selector("#said:has-text('Named')")
    page.get_by_role("button", name="Compare revision 1").click()
    page.wait_for_selector(f".rows .added:has-text('{added}')")
    page.get_by_role("button", name="Restore revision 1").click()
    page.wait_for_selector("#said:has-text('is back')")


def test_a_state_is_named_compared_and_restored(page, bench, folder):
    file = folder / "good.rig.toml"
    before = file.read_text()
    edit = {"do": "set", "address": "rig.name", "value": "Another name"}
    act(bench, "good", "edit", edits=[edit], seen=1)
    page.goto(f"{bench.address}/rig/good/revisions")
    page.wait_for_selector("body[data-loaded]")
    name_compare_and_restore_the_first(page, "as delivered", added="Another name")
    assert file.read_text() == before
    page.reload()
    page.wait_for_selector("body[data-loaded]")
    assert page.get_by_label("Name of revision 1").input_value() == "as delivered"
    assert page.locator("#revisions tbody tr").count() == 3


def test_a_chart_has_revisions_of_its_own(page, bench, folder):
    act(bench, "good", "copy-chart", chart="bramley-delay", new="bramley-delay")
    file = next(folder.rglob("bramley-delay*.toml"))
    before = file.read_text()
    act(bench, "good", "chart-fact", chart="bramley-delay", address="settle.ms", text="777")
    page.goto(f"{bench.address}/rig/good/charts?chart=bramley-delay")
    page.wait_for_selector("body[data-loaded]")
    page.get_by_role("link", name="Its revisions").click()
    page.wait_for_selector("body[data-page='revisions'][data-loaded]")
    assert page.locator("#of").input_value() == "bramley-delay"
    name_compare_and_restore_the_first(page, "as the manual says", added="ms = 777")
    assert file.read_text() == before
    page.wait_for_selector("#revisions tr.now:has-text('Restored revision 1')")
    assert page.get_by_label("Name of revision 1").input_value() == "as the manual says"
    page.locator("#of").select_option("")
    page.wait_for_selector("#revisions tr.now:has-text('Opened')")
