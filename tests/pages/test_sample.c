/* Sample sheets with every kind of block, as a program makes them: no problem is found, and the file that a person
   looks at is written to the folder named by SAMPLE_FOLDER, if there is one. */
#include "kit.h"

#include "base/file.h"
#include "draw.h"
#include "pdf.h"

#include <stdlib.h>

static struct drawing sample_drawing(double width, double height, const char *title)
{
    struct draw_point *p = mem_alloc(4 * sizeof *p), *q = mem_alloc(2 * sizeof *q);
    struct draw_shape *shapes = mem_alloc(2 * sizeof *shapes);
    struct draw_dim *dims = mem_alloc(2 * sizeof *dims);
    struct draw_label *labels = mem_alloc(sizeof *labels);
    p[1] = (struct draw_point){width, 0};
    p[2] = (struct draw_point){width, height};
    p[3] = (struct draw_point){0, height};
    q[0] = (struct draw_point){width / 2, 0};
    q[1] = (struct draw_point){width / 2, height};
    shapes[0] = (struct draw_shape){.points = p, .n = 4, .closed = true, .line = LINE_VISIBLE, .fill = FILL_TINT};
    shapes[1] = (struct draw_shape){.points = q, .n = 2, .line = LINE_CENTRE};
    dims[0] = (struct draw_dim){.a = p[0], .b = p[1], .side = DIM_BELOW, .text = "760"};
    dims[1] = (struct draw_dim){.a = p[1], .b = p[2], .side = DIM_RIGHT, .text = "580"};
    labels[0] = (struct draw_label){.at = {width / 4, height / 2}, .text = "A base", .bold = true};
    return (struct drawing){.shapes = shapes,
                            .n_shapes = 2,
                            .labels = labels,
                            .n_labels = 1,
                            .dims = dims,
                            .n_dims = 2,
                            .to_scale = true,
                            .title = title};
}

static void free_drawing(struct drawing *d)
{
    for (size_t i = 0; i < d->n_shapes; i++)
        free((void *)d->shapes[i].points);
    free(d->shapes);
    free(d->labels);
    free(d->dims);
}

static struct drawing plan_view, section;

static struct figure_item wall_figures[] = {{"420", "mm", "widest work"},
                                            {"63", "mm", "thickest work"},
                                            {"5", "mm", "blade above the work"},
                                            {"150", "mm", "clamp what is shorter"}};
static struct caution_item wall_cautions[] = {
    {SIGNAL_DANGER, "The blade comes out behind the fence. Hands on the fence ends only."},
    {SIGNAL_WARNING, "Push to the stop, switch off, wait until the blade stands."},
    {SIGNAL_WARNING, "Never trap an offcut. Stop block on the kept side only."},
};
static struct caution_item more_cautions[] = {
    {SIGNAL_CAUTION, "Splinters: no gloves near the blade; sweep with a brush when the saw stands."},
    {SIGNAL_NOTICE, "Do not plane the reference edge: the test proves the fence as it is."},
    {SIGNAL_NONE, "Unplug before touching blade, knife or runners."},
};
static struct table_column reckoner_columns[] = {
    {"ends\ndiffer by", ALIGN_POINT, 0}, {"move right\nend by", ALIGN_POINT, 0}, {"leaves", ALIGN_RIGHT, 0}};
static const char *reckoner_cells[][3] = {{"0.45", "0.20", "0.20"},        {"0.50", "0.22", "0.20"},
                                          {"0.60", "0.26", "0.25"},        {"0.70", "0.30", "0.30"},
                                          {"0.80", "0.35", "0.30 + 0.05"}, {"1.00", "0.44", "0.40 + 0.05"},
                                          {"1.20", "0.52", "0.50"}};
static struct table_row reckoner_rows[COUNT(reckoner_cells)];

static struct sheet wall_sheet(void)
{
    struct block_list body = {0}, left = {0}, right = {0};
    struct block banner = {.kind = BLOCK_BANNER,
                           .as.banner = {MARK_FILLED_SQUARE, "FIT FOR USE", "valid to" NBSP "2027-02-02"}};
    add_block(&body, banner);
    add_paragraph(
        &body, STYLE_ARM,
        "Square to " BOLD("0.042" THIN "mm in 300") " (± 0.005); allowed 0.10. Tested 2026-11-02, three strips.");
    add_block(&body, (struct block){.kind = BLOCK_FIGURES, .as.figures = {wall_figures, 4}});
    add_block(&left, (struct block){.kind = BLOCK_DRAWING, .as.drawing = {&plan_view, 60, 85, STYLE_BODY}});
    add_heading(&right, 2, "Reckoner for the next test", "");
    add_paragraph(&right, STYLE_BODY,
                  "Pencil two marks " BOLD("350") " apart on the strip, measure at the marks. Board left of the blade, "
                                                  "turned " BOLD("clockwise") ". Three strips, take the mean.");
    for (int i = 0; i < COUNT(reckoner_cells); i++)
        reckoner_rows[i].cells = reckoner_cells[i];
    add_block(&right, table_block("", reckoner_columns, 3, reckoner_rows, COUNT(reckoner_rows)));
    add_paragraph(&right, STYLE_BODY,
                  BOLD("Below 0.44: leave it alone.") "\nFence end wider: " BOLD(
                      "toward") " the operator.\nFar end wider: " BOLD("away") " from the operator.");
    struct block columns = {.kind = BLOCK_COLUMNS, .as.columns = {{left, right}, {7.5, 4.5}, 2}};
    add_block(&body, columns);
    add_block(&body, (struct block){.kind = BLOCK_RULE});
    add_block(&body, (struct block){.kind = BLOCK_CAUTIONS, .as.cautions = {wall_cautions, 3, STYLE_ARM}});
    add_block(&body, (struct block){.kind = BLOCK_CAUTIONS, .as.cautions = {more_cautions, 3, STYLE_BODY}});
    struct sheet s = plain_sheet(SHEET_WALL, body);
    s.one_page = true;
    s.title = "Wall sheet";
    s.head_left = BOLD("TS-07") NBSP NBSP " Crosscut sled, bay 2";
    s.head_right = "";
    s.bookmark = "Wall";
    return s;
}

static struct table_column part_columns[] = {
    {"part", ALIGN_LEFT, 1}, {"no.", ALIGN_RIGHT, 0}, {"size, mm", ALIGN_RIGHT, 0}, {"stock", ALIGN_LEFT, 0}};
static const char *part_cells[][4] = {{"B reference fence, layers", "2", "760 × 100 × 18", "ply18"},
                                      {"D exit guard, layers", "5", "100 × 100 × 18", "ply18"},
                                      {"E travel stop, in the slot", "1", "60 × 19 × 9", "maple"}};
static struct table_row part_rows[3];
static struct table_column check_columns[] = {
    {"check", ALIGN_LEFT, 1}, {"is", ALIGN_POINT, 0}, {"wanted", ALIGN_POINT, 0}, {"", ALIGN_LEFT, 0}};
static const char *check_cells[][4] = {{"guard past the blade", "30.5", "≥ 25", "pass"},
                                       {"bridge over the kerf, thinnest place", "32", "≥ 25", "pass"},
                                       {"runner play, driest air", "0.126", "0.05 to 0.25", "pass"},
                                       {"fence bending", "−0.000" THIN "14", "≤ 0.000" THIN "33", "pass"}};
static struct table_row check_rows[4];
static struct step_item steps[] = {
    {"14",
     BOLD("Glue the five layers of D") " into a block 90 deep, grain upright, faces flush. Clamp 1 h, leave overnight "
                                       "before sawing.",
     "Flush faces: the block must bear on the fence all over.", true, SIGNAL_NONE, NULL},
    {"15",
     BOLD("Fix D to the outer face of B") ", centred on the blade plane, on the base, with glue and four screws 4 × "
                                          "50, all more than 40 from the blade plane.",
     "No metal where the blade can come.", true, SIGNAL_NONE, NULL},
    {"16",
     BOLD("Fix the travel stop E") " in the right-hand slot, saw unplugged: its near face where the end of the free "
                                   "runner (cut to 388) stands when the fence's working face is 477.6 from the table's "
                                   "near edge. Two screws from below.",
     "The guard does not stop the sled. A stop set with the blade at its highest would halt it too soon.", true,
     SIGNAL_WARNING, "Unplug the saw. The blade can cut a hand that only turns it."},
    {"17", BOLD("Try it unplugged") ": sled on the stop, blade at its highest. No tooth may show behind or above D.",
     "Know it is right: 30 of wood left behind the teeth.", true, SIGNAL_NONE, NULL},
};

static struct sheet build_sheet(void)
{
    struct block_list body = {0}, left = {0}, right = {0};
    add_heading(&body, 1, "Exit guard and travel stop", "stage 4 of 6");
    add_block(&body, (struct block){.kind = BLOCK_DRAWING, .as.drawing = {&section, 50, 90, STYLE_BODY}});
    for (int i = 0; i < 3; i++)
        part_rows[i].cells = part_cells[i];
    for (int i = 0; i < 4; i++)
        check_rows[i].cells = check_cells[i];
    add_heading(&left, 2, "Parts of this stage", "");
    add_block(&left, table_block("", part_columns, 4, part_rows, 3));
    add_heading(&right, 2, "Checks", "mm");
    add_block(&right, table_block("", check_columns, 4, check_rows, 4));
    add_block(&body, (struct block){.kind = BLOCK_COLUMNS, .as.columns = {{left, right}, {6, 6}, 2}});
    add_heading(&body, 2, "Steps", "");
    add_block(&body, (struct block){.kind = BLOCK_STEPS, .as.steps = {steps, 4}});
    add_heading(&body, 3, "Assumed, not stated in the job", "");
    add_paragraph(&body, STYLE_BODY,
                  "Blade above the work 5 mm (default). Screws: the standard metric series. The runners are "
                  "quarter-sawn, as the strip stands in the stock list, and were fitted at 18 °C and 50 % relative "
                  "humidity; they swell by 0.06 mm on the way to the dampest week of the year.");
    add_block(&body, (struct block){.kind = BLOCK_CAUTIONS, .as.cautions = {more_cautions, 2, STYLE_BODY}});
    add_block(&body, (struct block){.kind = BLOCK_BAR,
                                    .as.bar = {.length = 100,
                                               .parts = 10,
                                               .label = "Measure me: 100 mm. If not, print again without scaling."}});
    return plain_sheet(SHEET_BUILD, body);
}

static const char job_text[] =
    "fettle: 1                          # version of this format\n"
    "job:\n  number: TS-07                    # printed on every page; names the output files\n  title: Crosscut sled, "
    "bay 2\n  date: 2026-11-02                 # date of issue (ISO 8601); left out: the newest date in the file\n"
    "units: mm                          # mm | in: how bare numbers are read and how sheets print\n\n"
    "saw:\n  name: Cabinet saw, bay 2\n  blade: {diameter: 254, kerf: 2.8, plate: 1.8, highest: 80}   # highest: most "
    "it stands above the table\n"
    "  table: {front_edge: 500, depth: 800, width: 940, left_of_blade: 470}   # front_edge: near edge to the blade's "
    "axis, blade at its highest\n"
    "  slots: {width: 19.1, depth: 9.6, left: 142, right: 178}      # blade plane to slot centre lines; one may be "
    "absent\n"
    "instruments:\n  leaves-1:  {kind: feeler, leaves: [0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 0.60, 0.70, "
    "0.80, 0.90, 1.00, 1.10, 1.20, 1.30, 1.40]}\n"
    "tests:                             # oldest first; several of one method make its history\n  - method: five-cut\n "
    "   date: 2026-11-02\n    strips:\n      - {fence_end: [21.47, 21.46, 21.48], far_end: [21.26, 21.26, 21.25]}\n";

static struct box_item sum_items[] = {{.text = "(fence end", .text_width = 24},
                                      {.text = "", .caption = "mean of three", .width = 22},
                                      {.text = "−"},
                                      {.text = "", .caption = "far end, mean", .width = 22},
                                      {.text = ") ÷ 4 ÷ 388 × 610 ="},
                                      {.text = "", .caption = "move, mm", .width = 26, .inside = "0.085"}};
static const char *sign_labels[] = {"tested by", "checked by", "date"};
static struct table_column budget_columns[] = {
    {"source", ALIGN_LEFT, 1}, {"standard", ALIGN_POINT, 0}, {"freedom", ALIGN_POINT, 0}};
static const char *budget_cells[][3] = {{"spread of three strips", "0.00134", "2"},
                                        {"caliper, between like readings", "0.00067", "∞"},
                                        {"length L", "0.00003", "∞"},
                                        {"combined; × 3.18", "0.00150", "3.1"}};
static struct table_row budget_rows[4];

static struct sheet record_sheet(void)
{
    struct block_list body = {0}, left = {0}, right = {0};
    add_block(&body, (struct block){.kind = BLOCK_PARAGRAPH,
                                    .as.paragraph = {.style = STYLE_ARM,
                                                     .text = BOLD("WITHIN.") " Error +0.042 ± 0.005 mm in 300 (95" THIN
                                                                             "%, k = 3.18); tolerance 0.10 in 300.",
                                                     .boxed = true}});
    for (int i = 0; i < 4; i++)
        budget_rows[i] = (struct table_row){budget_cells[i], i == 3, i == 3};
    add_heading(&left, 2, "What the ± is made of", "mm in 300");
    add_block(&left, table_block("", budget_columns, 3, budget_rows, 4));
    add_heading(&right, 2, "Measured with", "");
    add_paragraph(&right, STYLE_BODY,
                  "caliper-3: step 0.01, limit ± 0.03, checked 2026-01-15; maker's stated accuracy only, no "
                  "calibration certificate seen, no traceability claimed.");
    add_paragraph(&right, STYLE_BODY,
                  "Rule: within when |error| + U does not pass the tolerance. Results relate only to this sled. 1" THIN
                  "3⁄8 in, 15⁄32 in.");
    add_block(&body, (struct block){.kind = BLOCK_COLUMNS, .as.columns = {{left, right}, {6, 6}, 2}});
    add_heading(&body, 2, "The sum, by pencil", "");
    add_block(&body, (struct block){.kind = BLOCK_BOXES, .as.boxes = {sum_items, COUNT(sum_items)}});
    add_block(&body, (struct block){.kind = BLOCK_SIGNATURES, .as.signatures = {sign_labels, 3}});
    add_heading(&body, 1, "The job itself", "text taken from this block is the same job");
    add_block(&body, (struct block){.kind = BLOCK_SOURCE, .as.source = {"ts-07.yaml", job_text}});
    struct sheet s = plain_sheet(SHEET_RECORD, body);
    s.head_left = BOLD("TS-07") NBSP NBSP " Record: five-cut test of the reference fence";
    s.head_right = "In-house record, no accredited certificate";
    s.foot_right = "TS-07 2026-11-02 3f9a41c07d22e518";
    return s;
}

static void test_pages_build_sample(void **state)
{
    (void)state;
    struct faces *faces = type_open();
    plan_view = sample_drawing(760, 580, "");
    section = sample_drawing(760, 200, "Section at the kerf, sled against its stop, blade at its highest");
    struct sheet list[] = {wall_sheet(), build_sheet(), record_sheet()};
    const char *folder = getenv("SAMPLE_FOLDER"), *names[] = {"a4", "a3", "letter", "tabloid"};
    for (enum paper paper = PAPER_A4; paper <= PAPER_TABLOID; paper++) {
        struct sheets sheets = {.paper = paper, .list = list, .n = 3};
        struct pages pages;
        struct text problem = {0}, bytes = {0};
        if (!pages_build(&sheets, faces, &pages, &problem))
            print_error("%s", text_string(&problem));
        assert_string_equal(text_string(&problem), "");
        assert_no_problems(&pages, faces);
        struct pdf_info info = {.title = "TS-07",
                                .author = "",
                                .subject = "",
                                .keywords = "",
                                .creator = "fettle",
                                .language = "en-GB",
                                .identity = "sample"};
        assert_true(pdf_build(&pages, faces, &info, &bytes, &problem));
        if (folder) {
            struct text path = {0};
            text_printf(&path, "%s/sample-%s.pdf", folder, names[paper]);
            assert_true(file_write_whole(text_string(&path), bytes.bytes, bytes.size));
            text_free(&path);
        }
        text_free(&bytes);
        text_free(&problem);
        pages_free(&pages);
    }
    for (int i = 0; i < 3; i++)
        free_list(&list[i].body);
    free_drawing(&plan_view);
    free_drawing(&section);
    type_close(faces);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_pages_build_sample)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
