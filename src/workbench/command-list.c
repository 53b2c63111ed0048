/* The table of commands. Its order is the order in which a search shows what fits equally well. */
#include "command-list.h"

#include <glib/gi18n.h>
#include <string.h>

#define FIELD HW_KEYS_AFTER_FIELD

#define SCENE N_ ("Scene")
#define MOTIFS N_ ("Motifs")
#define ARRANGE N_ ("Arrange")
#define HOOPINGS N_ ("Hoopings")
#define MACHINE N_ ("At the machine")
#define PAPER N_ ("Paper and files")
#define LOOKING N_ ("Looking")
#define HELP N_ ("Help")

static const HwCommand commands[] = {
  { "win.new-scene", N_ ("New scene…"), N_ ("Begins a new picture with a cloth and hoops of its own."), SCENE,
    "<Control>n", 0 },
  { "win.open", N_ ("Open…"), N_ ("Opens a scene from its file."), SCENE, "<Control>o", 0 },
  { "win.start-page", N_ ("Start page"), N_ ("The scenes used last, and two to look around in."), SCENE, NULL,
    0 },
  { "win.save", N_ ("Save"), N_ ("Saves the scene in its file."), SCENE, "<Control>s", 0 },
  { "win.save-as", N_ ("Save as…"), N_ ("Saves the scene under another name."), SCENE, "<Control><Shift>s",
    0 },
  { "win.earlier-states", N_ ("Earlier states…"), N_ ("What the file held before it was saved over."), SCENE,
    NULL, 0 },
  { "win.undo", N_ ("Undo"), N_ ("Takes the last step back."), SCENE, "<Control>z", FIELD },
  { "win.redo", N_ ("Redo"), N_ ("Does again what was taken back."), SCENE, "<Control><Shift>z <Control>y",
    FIELD },
  { "win.edit-cloth", N_ ("Cloth and edge line…"),
    N_ ("Size, colour and hold of the cloth; the outline of the finished piece."), SCENE, NULL, 0 },
  { "win.edit-hoops", N_ ("Hoops…"), N_ ("The hoops there are, with their fields and frames."), SCENE, NULL,
    0 },
  { "win.parts", N_ ("Parts…"), N_ ("Divides the picture into parts that are stitched one after the other."),
    SCENE, NULL, 0 },
  { "win.threads-at-hand", N_ ("Threads at hand…"), N_ ("Your own threads, to choose from."), SCENE, NULL,
    0 },
  { "win.supplies", N_ ("What it takes…"), N_ ("Thread, bobbins, stabiliser and cloth that the plan takes."),
    SCENE, NULL, 0 },
  { "win.mark-list", N_ ("Marks to draw…"), N_ ("Where each mark is drawn on the cloth, with a ruler."),
    SCENE, NULL, 0 },
  { "win.add-photo", N_ ("Photo of the cloth…"), N_ ("Lays a photograph of the cloth under the motifs."),
    SCENE, NULL, 0 },

  { "win.add-motif", N_ ("Add motifs…"), N_ ("Motifs from drawings, pictures and needle lists."), MOTIFS,
    NULL, 0 },
  { "win.draw-outline", N_ ("Draw an outline…"), N_ ("A motif that has no artwork yet, drawn by hand."),
    MOTIFS, NULL, 0 },
  { "win.borrow-motif", N_ ("Borrow the wren of the walled garden"), N_ ("A motif to try things with."),
    MOTIFS, NULL, 0 },
  { "win.select-all", N_ ("Select all motifs"), N_ ("Takes every motif in the hand at once."), MOTIFS,
    "<Control>a", FIELD },
  { "win.bring-forward", N_ ("Bring forward"), N_ ("One place nearer to the front: stitched later."), MOTIFS,
    "Page_Up", FIELD },
  { "win.send-back", N_ ("Send back"), N_ ("One place farther back: stitched earlier."), MOTIFS, "Page_Down",
    FIELD },
  { "win.mirror", N_ ("Mirror"), N_ ("Left becomes right."), MOTIFS, "<Control>m", FIELD },
  { "win.duplicate", N_ ("Duplicate"), N_ ("A copy beside each selected motif."), MOTIFS, "<Control>d",
    FIELD },
  { "win.delete", N_ ("Delete"), N_ ("Takes the selected motifs off the cloth."), MOTIFS, "Delete", FIELD },
  { "win.lock", N_ ("Lock in place"), N_ ("The selected motifs stay where they are."), MOTIFS, "<Control>l",
    FIELD },
  { "win.edit-outline", N_ ("Edit the outline…"), N_ ("The stitched area of the selected motif, by hand."),
    MOTIFS, NULL, 0 },
  { "win.put-in-part", N_ ("Put into a part…"), N_ ("The selected motifs belong to that part."), MOTIFS, NULL,
    0 },
  { "win.keep-apart", N_ ("Keep apart"), N_ ("The selected motifs never share a hooping."), MOTIFS, NULL, 0 },
  { "win.let-share", N_ ("May share again"), N_ ("Motifs that were kept apart may share a hooping."), MOTIFS,
    NULL, 0 },

  { "win.line-up::left", N_ ("Left sides"), N_ ("Brings the left sides of the motifs in line."), ARRANGE,
    "<Control>Left", FIELD },
  { "win.line-up::middle", N_ ("Middles under each other"),
    N_ ("Brings the middles in line, one under the other."), ARRANGE, NULL, 0 },
  { "win.line-up::right", N_ ("Right sides"), N_ ("Brings the right sides of the motifs in line."), ARRANGE,
    "<Control>Right", FIELD },
  { "win.line-up::top", N_ ("Top sides"), N_ ("Brings the top sides of the motifs in line."), ARRANGE,
    "<Control>Up", FIELD },
  { "win.line-up::centre", N_ ("Middles beside each other"),
    N_ ("Brings the middles in line, one beside the other."), ARRANGE, NULL, 0 },
  { "win.line-up::bottom", N_ ("Bottom sides"), N_ ("Brings the bottom sides of the motifs in line."),
    ARRANGE, "<Control>Down", FIELD },
  { "win.space-out::across", N_ ("Across"), N_ ("Equal gaps between the motifs, from left to right."),
    ARRANGE, NULL, 0 },
  { "win.space-out::down", N_ ("Down"), N_ ("Equal gaps between the motifs, from top to bottom."), ARRANGE,
    NULL, 0 },
  { "win.mirror-pair::upright", N_ ("Across the upright centre line"),
    N_ ("Adds a mirrored pair, left and right of the cloth's middle."), ARRANGE, "<Control><Shift>m", FIELD },
  { "win.mirror-pair::level", N_ ("Across the level centre line"),
    N_ ("Adds a mirrored pair, above and below the cloth's middle."), ARRANGE, NULL, 0 },
  { "win.copies-in-row", N_ ("Copies in a row…"), N_ ("A border or frieze from the selected motifs."),
    ARRANGE, NULL, 0 },
  { "win.put-in-row", N_ ("Put in a row…"), N_ ("Puts the selected motifs in a row with equal gaps."),
    ARRANGE, "<Control>r", FIELD },
  { "win.copies-around", N_ ("Copies around a centre…"), N_ ("A wreath from the selected motifs."), ARRANGE,
    NULL, 0 },
  { "win.tuck-behind", N_ ("Tuck behind…"), N_ ("Slides a motif behind its neighbour, by so much."), ARRANGE,
    "<Control>t", FIELD },
  { "win.come-to-rest", N_ ("Come to rest while dragging"),
    N_ ("A dragged motif comes to rest where it lies in line."), ARRANGE, NULL, 0 },

  { "win.next-hooping", N_ ("Next hooping"), N_ ("Chooses the hooping after this one."), HOOPINGS,
    "<Control>Page_Down", FIELD },
  { "win.previous-hooping", N_ ("Hooping before"), N_ ("Chooses the hooping before this one."), HOOPINGS,
    "<Control>Page_Up", FIELD },
  { "win.next-stage", N_ ("One stage on"), N_ ("Shows the cloth as it is one hooping later."), HOOPINGS,
    "<Alt>Right", FIELD },
  { "win.previous-stage", N_ ("One stage back"), N_ ("Shows the cloth as it is one hooping earlier."),
    HOOPINGS, "<Alt>Left", FIELD },
  { "win.keep-hooping::all", N_ ("Hold as it is"),
    N_ ("The chosen hooping keeps its hoop, place and motifs."), HOOPINGS, NULL, 0 },
  { "win.keep-hooping::motifs", N_ ("Keep these motifs together"),
    N_ ("The motifs of the chosen hooping stay in one hooping."), HOOPINGS, NULL, 0 },
  { "win.keep-hooping::grain", N_ ("Keep along the grain (0° or 90°)…"),
    N_ ("The chosen hooping lies straight with the threads of the cloth."), HOOPINGS, NULL, 0 },
  { "win.unpin-hooping", N_ ("Let go"), N_ ("The chosen hooping may change with the plan again."), HOOPINGS,
    NULL, 0 },
  { "win.split-hooping", N_ ("Split…"), N_ ("Makes two hoopings of the chosen one."), HOOPINGS, NULL, 0 },
  { "win.no-hoop", N_ ("This hoop cannot be used any more"), N_ ("Plans the rest without that hoop."),
    HOOPINGS, NULL, 0 },
  { "win.show-problems", N_ ("Things to look at"), N_ ("What the plan finds wrong, and what to do."),
    HOOPINGS, NULL, 0 },

  { "win.at-machine", N_ ("At the machine"), N_ ("Large steps for the work at the machine, and back."),
    MACHINE, "F8", 0 },
  { "win.begin-hooping", N_ ("Stitch it now, at the machine"),
    N_ ("Goes to the machine with the chosen hooping."), MACHINE, NULL, 0 },
  { "win.mark-stitched", N_ ("It is stitched already"), N_ ("The chosen hooping counts as stitched."),
    MACHINE, NULL, 0 },
  { "win.chosen-landed", N_ ("It was stitched elsewhere…"), N_ ("Tells where the stitching really lies."),
    MACHINE, NULL, 0 },
  { "win.lay-aside", N_ ("Lay it aside"), N_ ("Leaves the hooping that was begun for later."), MACHINE, NULL,
    0 },
  { "win.take-back", N_ ("Last hooping not finished after all"), N_ ("It is to be stitched again."), MACHINE,
    NULL, 0 },
  { "win.measure-cloth", N_ ("Measure the cloth…"), N_ ("What the stitched cloth has drawn in."), MACHINE,
    NULL, 0 },
  { "win.day-log", N_ ("Log of the days…"), N_ ("What was stitched when, with your notes."), MACHINE, NULL,
    0 },

  { "win.print", N_ ("Print…"), N_ ("Templates, layout and bench sheet, on paper or as PDF."), PAPER,
    "<Control>p", 0 },
  { "win.export-pdf", N_ ("Write a PDF file…"), N_ ("The same papers as a file."), PAPER, "<Control><Shift>p",
    0 },
  { "win.take-along", N_ ("Take along…"), N_ ("A folder with all that the workroom needs."), PAPER, NULL, 0 },
  { "win.save-needles", N_ ("Save needle list…"), N_ ("The stitches of the chosen hooping, in its own axes."),
    PAPER, NULL, 0 },

  { "win.show-hoopings", N_ ("Hoopings"), N_ ("Shows or hides the hoopings on the cloth."), LOOKING, NULL,
    0 },
  { "win.show-marks", N_ ("Marks"), N_ ("Shows or hides the marks on the cloth."), LOOKING, NULL, 0 },
  { "win.show-order", N_ ("Order numbers"), N_ ("Shows or hides the places in the stitch order."), LOOKING,
    NULL, 0 },
  { "win.show-density", N_ ("How dense the stitching lies"),
    N_ ("Colours the cloth where much thread lies over each other."), LOOKING, NULL, 0 },
  { "win.zoom-in", N_ ("Larger"), N_ ("Goes nearer to the cloth."), LOOKING, "<Control>plus <Control>equal",
    0 },
  { "win.zoom-out", N_ ("Smaller"), N_ ("Steps back from the cloth."), LOOKING, "<Control>minus", 0 },
  { "win.zoom-fit", N_ ("The whole cloth"), N_ ("Shows all of the cloth."), LOOKING, "<Control>0", 0 },
  { "win.zoom-true", N_ ("True size"), N_ ("One millimetre on the screen is one on the cloth."), LOOKING,
    "<Control>1", 0 },
  { "win.side-pane-open", N_ ("Side pane"), N_ ("Shows or puts away the pane beside the table."), LOOKING,
    "F9", 0 },
  { "win.foot-open", N_ ("Plan and course"),
    N_ ("Shows or puts away the plan's sentence and the course below the table."), LOOKING, "<Shift>F9", 0 },
  { "win.next-part", N_ ("Next part of the window"),
    N_ ("From the cloth to the side pane, the foot and the header; what is selected stays."), LOOKING, "F6",
    0 },
  { "win.unit::mm", N_ ("Millimetres"), N_ ("Lengths are given in millimetres."), LOOKING, NULL, 0 },
  { "win.unit::inch", N_ ("Inches"), N_ ("Lengths are given in inches."), LOOKING, NULL, 0 },
  { "win.step-back", N_ ("One step back"), N_ ("Closes or lets go what was opened or chosen last."), LOOKING,
    "Escape", FIELD },

  { "win.find-command", N_ ("Find a command…"), N_ ("Type a few letters of what you want to do."), HELP,
    "<Control>k", 0 },
  { "win.show-help-overlay", N_ ("Keys"), N_ ("All that the keyboard does, on one page."), HELP, NULL, 0 },
  { "win.help", N_ ("Guide"), N_ ("The guide to the program."), HELP, "F1", 0 },
  { "win.hints-again", N_ ("Show the hints again"),
    N_ ("The hints for the first minutes, from the beginning."), HELP, NULL, 0 },
  { "win.about", N_ ("About Hoopwright"), N_ ("Version and licence."), HELP, NULL, 0 },
  { "window.close", N_ ("Close the window"), N_ ("Asks about unsaved work first."), HELP, "<Control>w", 0 },
  { "app.quit", N_ ("Leave the program"), N_ ("Closes all windows."), HELP, "<Control>q", 0 },
};

const HwCommand *
hw_commands (guint *n)
{
  *n = G_N_ELEMENTS (commands);
  return commands;
}

const HwCommand *
hw_command_find (const char *action)
{
  g_return_val_if_fail (action != NULL, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    if (g_str_equal (commands[i].action, action))
      return &commands[i];
  return NULL;
}

/* Without case and accents: what is left is compared letter by letter. (transfer full) */
static char *
folded (const char *text)
{
  g_autofree char *apart = g_utf8_normalize (text, -1, G_NORMALIZE_ALL);
  g_autofree char *lower = g_utf8_casefold (apart != NULL ? apart : "", -1);
  GString *kept = g_string_new (NULL);

  for (const char *p = lower; *p != '\0'; p = g_utf8_next_char (p))
    if (g_unichar_type (g_utf8_get_char (p)) != G_UNICODE_NON_SPACING_MARK)
      g_string_append_unichar (kept, g_utf8_get_char (p));
  return g_string_free (kept, FALSE);
}

static gboolean
begins_word (const char *text, const char *at)
{
  return at == text || !g_unichar_isalnum (g_utf8_get_char (g_utf8_prev_char (at)));
}

/* 0: the text begins with the word; 1: a word of it does; 2: it stands somewhere within; -1: nowhere. */
static int
fit_word (const char *word, const char *text)
{
  int best = -1;

  for (const char *at = strstr (text, word); at != NULL; at = strstr (at + 1, word))
    {
      int fit = at == text ? 0 : begins_word (text, at) ? 1 : 2;

      if (best < 0 || fit < best)
        best = fit;
    }
  return best;
}

int
hw_command_fit (const char *typed, const char *label, const char *more)
{
  g_autofree char *wanted = NULL;
  g_autofree char *name = NULL;
  g_autofree char *rest = NULL;
  g_auto (GStrv) words = NULL;
  int sum = 0;

  g_return_val_if_fail (typed != NULL && label != NULL, -1);

  wanted = folded (typed);
  name = folded (label);
  rest = folded (more != NULL ? more : "");
  words = g_strsplit_set (wanted, " \t", -1);
  for (char **word = words; *word != NULL; word++)
    {
      int fit;

      if (**word == '\0')
        continue;
      fit = fit_word (*word, name);
      if (fit < 0 && (fit = fit_word (*word, rest)) >= 0)
        fit = fit < 2 ? 5 : 9; /* what is only told of it counts less than its name */
      if (fit < 0)
        return -1;
      sum += fit;
    }
  return sum;
}
