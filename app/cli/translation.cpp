// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/translation.h"

#include "record/recordwords.h"

#include <QCoreApplication>
#include <QFile>
#include <QLocale>
#include <QSettings>

#include <algorithm>

namespace ramplight {

tl::expected<std::unique_ptr<QTranslator>, QString> translationOf(const HousePaths& paths,
                                                                  const QString& language)
{
    const QString name = QStringLiteral("ramplight_%1.qm").arg(language);
    const bool isPlain = std::ranges::all_of(
        language, [](QChar c) { return c.isLetter() || c == QLatin1Char('_'); });
    for (const QString& folder :
         {paths.translations(), QStringLiteral(":/ramplight/translations")}) {
        const QString file = folder + QLatin1Char('/') + name;
        if (!isPlain || !QFile::exists(file))
            continue;
        auto words = std::make_unique<QTranslator>();
        if (!words->load(file))
            return tl::unexpected(QStringLiteral("%1 holds no translation.").arg(file));
        return words;
    }
    return tl::unexpected(QStringLiteral("There is no translation for %1: %2 was expected in %3.")
                              .arg(language, name, paths.translations()));
}

std::unique_ptr<QTranslator> speakAsSet(const HousePaths& paths)
{
    const QSettings file(paths.settings(), QSettings::IniFormat);
    const QString language = file.value(screenLanguageSetting).toString();
    std::unique_ptr<QTranslator> words;
    if (!language.isEmpty()) {
        if (auto found = translationOf(paths, language)) {
            words = std::move(*found);
            QCoreApplication::installTranslator(words.get());
        }
    }
    QLocale::setDefault(recordLocale());
    return words;
}

} // namespace ramplight
