/* A page of the guide as readable text: its title, headings, paragraphs, steps, keys, links and pictures (Mallard 1.0). */
#include "guide-page.h"

#include <string.h>

#define GUIDE_PATH "/org/hoopwright/Hoopwright/guide/"
#define MOST_WIDTH 700 /* px of a picture */
#define LINK "guide-link"

typedef struct
{
  GtkTextBuffer *buffer; /* NULL: only the title is wanted */
  GString *text;         /* of the block being read */
  GArray *runs;          /* Run: inline tags within text */
  guint depth;           /* of sections */
  guint in_info;
  guint in_media;  /* what is said there is for who cannot see the picture */
  guint step;      /* number of the next step, 0 outside of steps */
  gboolean bullet; /* the next paragraph begins an item */
  char *title;
} Reader;

typedef struct
{
  const char *tag;
  char *link; /* the page it leads to, or NULL */
  gsize from, to;
} Run;

static void
run_clear (gpointer run)
{
  g_free (((Run *)run)->link);
}

static const char *
inline_tag (const char *element)
{
  if (g_str_equal (element, "key"))
    return "key";
  if (g_str_equal (element, "gui") || g_str_equal (element, "em"))
    return "strong";
  if (g_str_equal (element, "code") || g_str_equal (element, "input") || g_str_equal (element, "cmd")
      || g_str_equal (element, "file"))
    return "code";
  if (g_str_equal (element, "link"))
    return "link";
  return NULL;
}

static gboolean
is_block (const char *element)
{
  return g_str_equal (element, "p") || g_str_equal (element, "title") || g_str_equal (element, "code")
         || g_str_equal (element, "screen") || g_str_equal (element, "desc");
}

static const char *
attribute (const char **names, const char **values, const char *name)
{
  for (guint i = 0; names[i] != NULL; i++)
    if (g_str_equal (names[i], name))
      return values[i];
  return NULL;
}

/* A picture on a line of its own, no wider than the text. */
static void
put_picture (Reader *reader, const char *source)
{
  g_autofree char *path = g_strconcat (GUIDE_PATH, source, NULL);
  g_autoptr (GdkPixbuf) picture = gdk_pixbuf_new_from_resource (path, NULL);
  g_autoptr (GdkPixbuf) small = NULL;
  g_autoptr (GdkTexture) texture = NULL;
  GtkTextIter end;

  if (picture == NULL || reader->buffer == NULL)
    return;
  if (gdk_pixbuf_get_width (picture) > MOST_WIDTH)
    small = gdk_pixbuf_scale_simple (
        picture, MOST_WIDTH, gdk_pixbuf_get_height (picture) * MOST_WIDTH / gdk_pixbuf_get_width (picture),
        GDK_INTERP_HYPER);
  texture = gdk_texture_new_for_pixbuf (small != NULL ? small : picture);
  gtk_text_buffer_get_end_iter (reader->buffer, &end);
  gtk_text_buffer_insert_paintable (reader->buffer, &end, GDK_PAINTABLE (texture));
  gtk_text_buffer_insert_with_tags_by_name (reader->buffer, &end, "\n", -1, "paragraph", NULL);
}

static void
start_element (GMarkupParseContext *context,
               const char *element,
               const char **names,
               const char **values,
               gpointer user_data,
               GError **error)
{
  Reader *reader = user_data;
  const GSList *stack = g_markup_parse_context_get_element_stack (context);
  const char *parent = stack->next != NULL ? stack->next->data : "";

  if (g_str_equal (element, "info"))
    reader->in_info++;
  else if (g_str_equal (element, "media"))
    {
      const char *source = attribute (names, values, "src");

      reader->in_media++;
      if (source != NULL)
        put_picture (reader, source);
    }
  else if (g_str_equal (element, "section"))
    reader->depth++;
  else if (g_str_equal (element, "steps"))
    reader->step = 1;
  else if (g_str_equal (element, "item"))
    reader->bullet = TRUE;
  else if (g_str_equal (element, "p") || g_str_equal (element, "title") || g_str_equal (element, "screen")
           || g_str_equal (element, "desc"))
    {
      g_string_truncate (reader->text, 0);
      g_array_set_size (reader->runs, 0);
    }
  else if (inline_tag (element) != NULL)
    {
      /* Keys pressed together: Ctrl + Z */
      if (g_str_equal (element, "key") && g_str_equal (parent, "keyseq") && reader->text->len > 0
          && reader->runs->len > 0
          && g_array_index (reader->runs, Run, reader->runs->len - 1).to == reader->text->len)
        g_string_append (reader->text, "+");
      const char *page = g_str_equal (element, "link") ? attribute (names, values, "xref") : NULL;
      Run run = { inline_tag (element), NULL, reader->text->len, 0 };

      /* A link may lead to a section; a page is opened at its beginning. */
      if (page != NULL)
        run.link = g_strndup (page, strcspn (page, "#"));
      g_array_append_val (reader->runs, run);
    }
}

static void
append (GtkTextBuffer *buffer, const char *text, const char *tag, const char *block_tag)
{
  GtkTextIter end;

  gtk_text_buffer_get_end_iter (buffer, &end);
  gtk_text_buffer_insert_with_tags_by_name (buffer, &end, text, -1, block_tag, tag != NULL ? tag : block_tag,
                                            NULL);
}

/* A link's words are underlined; where it leads is tied to a tag of its own. */
static void
append_run (Reader *reader, const char *text, const Run *run, const char *block_tag)
{
  GtkTextIter start, end;
  GtkTextTag *tag;
  int at;

  gtk_text_buffer_get_end_iter (reader->buffer, &end);
  at = gtk_text_iter_get_offset (&end);
  append (reader->buffer, text, run->tag, block_tag);
  if (run->link == NULL)
    return;
  tag = gtk_text_buffer_create_tag (reader->buffer, NULL, NULL);
  g_object_set_data_full (G_OBJECT (tag), LINK, g_strdup (run->link), g_free);
  gtk_text_buffer_get_iter_at_offset (reader->buffer, &start, at);
  gtk_text_buffer_get_end_iter (reader->buffer, &end);
  gtk_text_buffer_apply_tag (reader->buffer, tag, &start, &end);
}

static void
put_block (Reader *reader, const char *block_tag)
{
  gsize at = 0;

  for (guint i = 0; i < reader->runs->len; i++)
    {
      const Run *run = &g_array_index (reader->runs, Run, i);
      g_autofree char *before = g_strndup (reader->text->str + at, run->from - at);
      g_autofree char *inside = g_strndup (reader->text->str + run->from, run->to - run->from);

      append (reader->buffer, before, NULL, block_tag);
      append_run (reader, inside, run, block_tag);
      at = run->to;
    }
  append (reader->buffer, reader->text->str + at, NULL, block_tag);
  append (reader->buffer, "\n", NULL, block_tag);
}

static void
put_paragraph (Reader *reader)
{
  if (!reader->bullet)
    {
      put_block (reader, reader->step > 0 ? "item" : "paragraph");
      return;
    }
  g_autofree char *sign = reader->step > 0 ? g_strdup_printf ("%u.  ", reader->step) : g_strdup ("•  ");
  append (reader->buffer, sign, "strong", "item");
  put_block (reader, "item");
  if (reader->step > 0)
    reader->step++;
  reader->bullet = FALSE;
}

/* A link without words of its own is called by the title of its page. */
static void
end_run (Reader *reader)
{
  Run *run = &g_array_index (reader->runs, Run, reader->runs->len - 1);

  if (run->link != NULL && run->from == reader->text->len && reader->buffer != NULL)
    {
      g_autoptr (GBytes) page = hw_guide_page_load (run->link);
      g_autofree char *title = page != NULL ? hw_guide_page_title (page) : NULL;

      g_string_append (reader->text, title != NULL ? title : run->link);
    }
  run->to = reader->text->len;
}

static void
end_element (GMarkupParseContext *context, const char *element, gpointer user_data, GError **error)
{
  Reader *reader = user_data;

  if (g_str_equal (element, "info"))
    reader->in_info--;
  else if (g_str_equal (element, "media"))
    reader->in_media--;
  else if (g_str_equal (element, "section"))
    reader->depth--;
  else if (g_str_equal (element, "steps"))
    reader->step = 0;
  else if (inline_tag (element) != NULL && reader->runs->len > 0)
    end_run (reader);

  if (reader->in_info > 0 || reader->in_media > 0 || !is_block (element) || g_str_equal (element, "code"))
    return;
  g_strchomp (reader->text->str);
  reader->text->len = strlen (reader->text->str);
  for (guint i = 0; i < reader->runs->len; i++)
    {
      Run *run = &g_array_index (reader->runs, Run, i);
      run->from = MIN (run->from, reader->text->len);
      run->to = CLAMP (run->to, run->from, reader->text->len);
    }

  if (g_str_equal (element, "title") && reader->title == NULL)
    reader->title = g_strdup (reader->text->str);
  if (reader->buffer == NULL)
    return;
  if (g_str_equal (element, "desc"))
    put_block (reader, "caption");
  else if (g_str_equal (element, "title"))
    put_block (reader, reader->depth == 0 ? "title" : "heading");
  else if (g_str_equal (element, "screen"))
    put_block (reader, "code");
  else
    put_paragraph (reader);
}

/* Runs of blanks and line ends count as one blank. */
static void
text (GMarkupParseContext *context, const char *chars, gsize length, gpointer user_data, GError **error)
{
  Reader *reader = user_data;
  gboolean verbatim = g_str_equal (g_markup_parse_context_get_element (context), "screen");

  for (gsize i = 0; i < length; i++)
    {
      gboolean blank = g_ascii_isspace (chars[i]) && !verbatim;

      if (blank && (reader->text->len == 0 || reader->text->str[reader->text->len - 1] == ' '))
        continue;
      g_string_append_c (reader->text, blank ? ' ' : chars[i]);
    }
}

static void
read_page (Reader *reader, GBytes *page)
{
  static const GMarkupParser parser = { start_element, end_element, text, NULL, NULL };
  g_autoptr (GMarkupParseContext) context = g_markup_parse_context_new (&parser, 0, reader, NULL);
  gsize length;
  const char *data = g_bytes_get_data (page, &length);

  reader->text = g_string_new (NULL);
  reader->runs = g_array_new (FALSE, FALSE, sizeof (Run));
  g_array_set_clear_func (reader->runs, run_clear);
  g_markup_parse_context_parse (context, data, (gssize)length, NULL);
  g_string_free (reader->text, TRUE);
  g_array_unref (reader->runs);
}

GBytes *
hw_guide_page_load (const char *page)
{
  g_return_val_if_fail (page != NULL, NULL);

  const char *const *languages = g_get_language_names ();
  g_autofree char *english = g_strconcat (GUIDE_PATH, page, ".page", NULL);

  for (guint i = 0; languages[i] != NULL && !g_str_has_prefix (languages[i], "en"); i++)
    {
      g_autofree char *path = g_strconcat (GUIDE_PATH, languages[i], "/", page, ".page", NULL);
      GBytes *bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);

      if (bytes != NULL)
        return bytes;
    }
  return g_resources_lookup_data (english, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
}

const char *
hw_guide_page_link_at (const GtkTextIter *place)
{
  g_autoptr (GSList) tags = gtk_text_iter_get_tags (place);

  for (GSList *l = tags; l != NULL; l = l->next)
    if (g_object_get_data (l->data, LINK) != NULL)
      return g_object_get_data (l->data, LINK);
  return NULL;
}

void
hw_guide_page_add_tags (GtkTextBuffer *buffer)
{
  g_return_if_fail (GTK_IS_TEXT_BUFFER (buffer));

  gtk_text_buffer_create_tag (buffer, "title", "scale", 1.7, "weight", PANGO_WEIGHT_BOLD,
                              "pixels-below-lines", 14, NULL);
  gtk_text_buffer_create_tag (buffer, "heading", "scale", 1.2, "weight", PANGO_WEIGHT_BOLD,
                              "pixels-above-lines", 16, "pixels-below-lines", 6, NULL);
  gtk_text_buffer_create_tag (buffer, "paragraph", "pixels-below-lines", 10, "pixels-inside-wrap", 4, NULL);
  gtk_text_buffer_create_tag (buffer, "item", "left-margin", 28, "indent", -20, "pixels-below-lines", 8,
                              "pixels-inside-wrap", 4, NULL);
  gtk_text_buffer_create_tag (buffer, "strong", "weight", PANGO_WEIGHT_BOLD, NULL);
  gtk_text_buffer_create_tag (buffer, "link", "underline", PANGO_UNDERLINE_SINGLE, NULL);
  gtk_text_buffer_create_tag (buffer, "caption", "scale", 0.9, "style", PANGO_STYLE_ITALIC,
                              "pixels-below-lines", 16, NULL);
  gtk_text_buffer_create_tag (buffer, "key", "weight", PANGO_WEIGHT_BOLD, NULL);
  gtk_text_buffer_create_tag (buffer, "code", "family", "monospace", NULL);
}

void
hw_guide_page_fill (GtkTextBuffer *buffer, GBytes *page)
{
  Reader reader = { .buffer = buffer };

  g_return_if_fail (GTK_IS_TEXT_BUFFER (buffer));
  g_return_if_fail (page != NULL);
  read_page (&reader, page);
  g_free (reader.title);
}

char *
hw_guide_page_title (GBytes *page)
{
  Reader reader = { .buffer = NULL };

  g_return_val_if_fail (page != NULL, NULL);
  read_page (&reader, page);
  return reader.title;
}
