// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "phone/phonepage.h"

#include "domain/say.h"

#include <QCryptographicHash>
#include <QFile>

#include <map>

namespace ramplight {

namespace {

QString resource(const char* name)
{
    QFile file(QStringLiteral(":/ramplight/phone/") + QLatin1StringView(name));
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

// The same bytes in the page and under the hash of its policy.
const QString& style()
{
    static const QString text = resource("page.css");
    return text;
}

const QString& script()
{
    static const QString text = resource("page.js");
    return text;
}

QByteArray hashed(const QString& text)
{
    return "'sha256-" +
           QCryptographicHash::hash(text.toUtf8(), QCryptographicHash::Sha256).toBase64() + "'";
}

struct Parts
{
    PhoneErrand errand;
    QString said = {};
    QString form = {};
    QString footing = {};
    bool scripted = false;
};

/// Filled in one walk, so that nothing that was put in is looked at again.
QByteArray filled(const Parts& parts)
{
    static const QString page = resource("page.html");
    // The translation names its own language (BCP 47).
    const std::map<QString, QString> values{
        {QStringLiteral("lang"), say("en")},
        {QStringLiteral("title"), parts.errand.what.toHtmlEscaped()},
        {QStringLiteral("css"), style()},
        {QStringLiteral("car"), parts.errand.car.toHtmlEscaped()},
        {QStringLiteral("what"), parts.errand.what.toHtmlEscaped()},
        {QStringLiteral("work"), parts.errand.work.toHtmlEscaped()},
        {QStringLiteral("said"), parts.said},
        {QStringLiteral("form"), parts.form},
        {QStringLiteral("footing"), parts.footing},
        {QStringLiteral("script"),
         parts.scripted ? QStringLiteral("<script>%1</script>").arg(script()) : QString()},
    };
    QString out;
    qsizetype at = 0;
    for (;;) {
        const qsizetype from = page.indexOf(QLatin1StringView("{{"), at);
        const qsizetype to = page.indexOf(QLatin1StringView("}}"), from);
        if (from < 0 || to < 0)
            break;
        out += QStringView(page).mid(at, from - at);
        if (const auto value = values.find(page.mid(from + 2, to - from - 2));
            value != values.end())
            out += value->second;
        at = to + 2;
    }
    out += QStringView(page).mid(at);
    return out.toUtf8();
}

QString paragraph(const QString& words)
{
    return QStringLiteral("<p>%1</p>").arg(words.toHtmlEscaped());
}

QString wordsOf(const PhotoAnswer& answer)
{
    if (!answer)
        return answer.error();
    if (answer->isEmpty())
        return say("Taken. It is at the kiosk.");
    return say("Taken. It is at the kiosk, but look at it again: %1").arg(*answer);
}

QString photoName(int number)
{
    return say("Photo %1").arg(number);
}

QString listed(const std::vector<PhotoAnswer>& sent)
{
    QString items;
    int number = 0;
    for (const PhotoAnswer& answer : sent)
        items += QStringLiteral("<li class=\"%1\"><b>%2</b><span>%3</span></li>")
                     .arg(answer ? QStringLiteral("taken") : QStringLiteral("refused"),
                          photoName(++number).toHtmlEscaped(), wordsOf(answer).toHtmlEscaped());
    // Read out when it changes.
    return QStringLiteral("<ul role=\"status\">%1</ul>").arg(items);
}

QString formOf(qint64 mostBytes)
{
    const auto data = [](const char* name, const QString& value) {
        return QStringLiteral(" data-%1=\"%2\"")
            .arg(QLatin1StringView(name), value.toHtmlEscaped());
    };
    QString form = QStringLiteral("<form method=\"post\" enctype=\"multipart/form-data\"");
    form += data("most", QString::number(mostBytes));
    form += data("photo", say("Photo %1"));
    form += data("waiting", say("Waits for its turn."));
    form += data("sending", say("On its way to the kiosk."));
    form += data("keeping", say("Arrived; the kiosk looks at it."));
    form += data("large", phonewords::tooLarge());
    form += data("lost", say("It did not arrive: the phone lost the kiosk. Is it in the workshop's "
                             "network? Take the photo again; when it fails again, open a new code "
                             "at the kiosk."));
    form += QLatin1Char('>');
    const auto input = [&form](const char* id, const char* kinds, const QString& words) {
        form += QStringLiteral("<div><input type=\"file\" name=\"photo\" id=\"%1\" %2 multiple>"
                               "<label for=\"%1\"%4>%3</label></div>")
                    .arg(QLatin1StringView(id), QLatin1StringView(kinds), words.toHtmlEscaped(),
                         QLatin1StringView(id) == QLatin1StringView("camera")
                             ? QStringLiteral(" class=\"first\"")
                             : QString());
    };
    input("camera", "accept=\"image/*\" capture=\"environment\"", say("Take photo"));
    // Asked for by name, some phones turn their own format into JPEG.
    input("album", "accept=\"image/jpeg,image/png\"", say("Choose photos"));
    form += QStringLiteral("<button>%1</button></form>").arg(say("Send").toHtmlEscaped());
    return form;
}

} // namespace

namespace phonewords {

QString nothingHereTitle()
{
    return say("Nothing is here");
}

QString nothingTakenTitle()
{
    return say("Nothing was taken");
}

QString nothingHere()
{
    return say("A code at the kiosk holds for ten minutes and "
               "ends when its sheet is closed: open a new one there.");
}

QString ended()
{
    return say("This photo was not taken: the code has ended, or has brought as many photos as one "
               "code may. Open a new one at the kiosk.");
}

QString tooLarge()
{
    return say("This photo was not taken: its file is too large. Set the camera to a smaller "
               "picture and take it again.");
}

QString tooMany()
{
    return say("This photo was not taken: these are enough for one code. Open a new one at the "
               "kiosk for more.");
}

QString busy()
{
    return say("This photo was not taken: too much arrives at the kiosk at once. Wait a moment and "
               "send it again.");
}

QString noForm()
{
    return say("This was not sent by the page of the kiosk. Open a code there.");
}

QString closing()
{
    return say("The kiosk closes. Look there whether the photo has arrived, and send it again if "
               "it has not.");
}

} // namespace phonewords

QByteArray phonePage(const PhoneErrand& errand, const std::vector<PhotoAnswer>& sent,
                     qint64 mostBytes)
{
    return filled(
        {errand, listed(sent), formOf(mostBytes),
         paragraph(say("This address is for these photos only and holds for ten minutes. It goes "
                       "over the workshop's network without encryption: who listens there can see "
                       "the pictures and the address.")) +
             paragraph(say("Where a photo was taken and other data that the phone adds are not "
                           "kept.")),
         true});
}

QByteArray phoneNote(const QString& title, const QString& words)
{
    return filled({{title, {}, {}}, paragraph(words)});
}

QByteArray phoneWords(const PhotoAnswer& answer)
{
    return wordsOf(answer).toUtf8();
}

QByteArray phonePolicy()
{
    static const QByteArray policy =
        "default-src 'none'; style-src " + hashed(style()) + "; script-src " + hashed(script()) +
        "; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
    return policy;
}

} // namespace ramplight
