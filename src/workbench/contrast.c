/* High contrast, as GTK 4 knows it: by the name of the theme. */
#include "contrast.h"

gboolean
hw_contrast_theme_is_high (const char *theme)
{
  if (theme == NULL)
    return FALSE;
  g_auto (GStrv) parts = g_strsplit (theme, ":", 2);
  g_autofree char *name = parts[0] != NULL ? g_ascii_strdown (parts[0], -1) : g_strdup ("");

  return strstr (name, "highcontrast") != NULL || strstr (name, "high-contrast") != NULL
         || g_str_has_suffix (name, "-hc") || g_str_has_suffix (name, "-hc-dark");
}

gboolean
hw_contrast_is_high (GtkSettings *settings)
{
  const char *forced = g_getenv ("GTK_THEME");
  g_autofree char *theme = NULL;

  g_return_val_if_fail (GTK_IS_SETTINGS (settings), FALSE);
  if (forced != NULL && *forced != '\0')
    return hw_contrast_theme_is_high (forced);
  g_object_get (settings, "gtk-theme-name", &theme, NULL);
  return hw_contrast_theme_is_high (theme);
}
