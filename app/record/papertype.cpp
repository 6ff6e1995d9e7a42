// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/papertype.h"

#include <QFontDatabase>
#include <QFontMetricsF>
#include <QRegularExpression>
#include <QTextLayout>

#include <algorithm>

namespace ramplight::paper {

namespace {

/// Adds the shipped typeface once and keeps what it is called here.
QString family()
{
    static const QString name = [] {
        QString found;
        for (const char* path :
             {":/ramplight/record/B612-Regular.otf", ":/ramplight/record/B612-Bold.otf"}) {
            const int id = QFontDatabase::addApplicationFont(QString::fromLatin1(path));
            const QStringList families = QFontDatabase::applicationFontFamilies(id);
            if (!families.isEmpty() && found.isEmpty())
                found = families.first();
        }
        return found;
    }();
    return name;
}

/// Em size.
int sizeOf(Type type)
{
    switch (type) {
    case Type::Title:
        return 800;
    case Type::Heading:
        return 440;
    case Type::Lead:
        return 440;
    case Type::Body:
    case Type::Bold:
        return 300;
    case Type::Small:
    case Type::SmallBold:
        return 255;
    }
    return 300;
}

bool isBold(Type type)
{
    return type == Type::Title || type == Type::Heading || type == Type::Bold ||
           type == Type::SmallBold || type == Type::Lead;
}

/// The same text, of the same length, where a line that ended between a figure and its unit, or a
/// tool and its number, or began with a dot, has a space that no line ends at.
QString withoutBreaksInFigures(QString text)
{
    static const QRegularExpression spaces(QStringLiteral(
        R"((?<=\d) (?=(?:[%°]|\p{L}{1,3}(?:·\p{L})?)(?!\p{L}))|(?<=\b\p{Lu}{2}) (?=\d)| (?=·))"));
    for (auto found = spaces.globalMatch(text); found.hasNext();)
        text[found.next().capturedStart()] = QChar(QChar::Nbsp);
    return text;
}

} // namespace

QFont fontOf(Type type)
{
    QFont font(family());
    font.setPixelSize(sizeOf(type));
    font.setBold(isBold(type));
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

double lineHeight(Type type)
{
    return sizeOf(type) * 1.36;
}

double ascent(Type type)
{
    return sizeOf(type) * 1.02;
}

double widthOf(const QString& text, Type type)
{
    return QFontMetricsF(fontOf(type)).horizontalAdvance(text);
}

QStringList linesOf(const QString& text, Type type, double width)
{
    QString prepared = text.trimmed();
    prepared.replace(QStringLiteral("\r\n"), QStringLiteral("\n"));
    prepared.replace(QLatin1Char('\n'), QChar(QChar::LineSeparator));
    QTextLayout layout(withoutBreaksInFigures(prepared), fontOf(type));
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    layout.setTextOption(option);
    QStringList lines;
    layout.beginLayout();
    for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(std::max(width, 1.0));
        QString piece = prepared.mid(line.textStart(), line.textLength());
        piece.remove(QChar(QChar::LineSeparator));
        lines.append(piece.trimmed());
    }
    layout.endLayout();
    if (lines.isEmpty())
        lines.append(QString());
    return lines;
}

} // namespace ramplight::paper
