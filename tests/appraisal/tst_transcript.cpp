// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "appraisal/spoken/transcript.h"

#include <QTest>

using namespace ramplight;

namespace {

/// "0-1500 Ann: words | ..." of what was read.
QString told(const Transcript& transcript)
{
    QStringList parts;
    for (const Utterance& it : transcript.utterances) {
        QString part;
        if (it.milliseconds >= 0)
            part += QString::number(it.milliseconds);
        if (it.endMilliseconds >= 0)
            part += QLatin1Char('-') + QString::number(it.endMilliseconds);
        if (!part.isEmpty())
            part += QLatin1Char(' ');
        if (!it.voice.empty())
            part += QString::fromStdString(it.voice) + QStringLiteral(": ");
        parts << part + QString::fromStdString(it.text);
    }
    return parts.join(QStringLiteral(" | "));
}

QString warned(const Transcript& transcript)
{
    QStringList lines;
    for (const TranscriptWarning& it : transcript.warnings)
        lines << QString::number(it.line);
    return lines.join(QLatin1Char(' '));
}

} // namespace

class TestTranscript : public QObject
{
    Q_OBJECT

private slots:
    void parse_data()
    {
        QTest::addColumn<QByteArray>("file");
        QTest::addColumn<QString>("wanted");
        QTest::addColumn<QString>("warnings");
        const auto row = [](const char* name, const QByteArray& file, const char* wanted,
                            const char* warnings = "") {
            QTest::newRow(name) << file << QString::fromUtf8(wanted)
                                << QString::fromLatin1(warnings);
        };
        const QByteArray head("WEBVTT\n\n");
        const QByteArray time("00:01.000 --> 00:02.500");
        // The specification's file structure.
        row("signature alone on its line", head + time + "\nroof fine\n", "1000-2500 roof fine");
        row("text behind the signature", "WEBVTT - a walk\n\n" + time + "\nroof\n",
            "1000-2500 roof");
        row("tab behind the signature", "WEBVTT\tx\n\n" + time + "\nroof\n", "1000-2500 roof");
        row("byte order mark", "\xef\xbb\xbf" + head + time + "\nroof\n", "1000-2500 roof");
        row("header lines", "WEBVTT\nKind: captions\nLanguage: en\n\n" + time + "\nroof\n",
            "1000-2500 roof");
        row("CRLF", "WEBVTT\r\n\r\n" + time + "\r\nroof\r\nfine\r\n\r\n", "1000-2500 roof fine");
        row("CR alone", "WEBVTT\r\r" + time + "\rroof\r", "1000-2500 roof");
        row("no blank line before the end", head + time + "\nroof", "1000-2500 roof");
        row("many blank lines", head + "\n\n\n" + time + "\nroof\n\n\n\n", "1000-2500 roof");
        row("signature glued to a word is none", "WEBVTTX\nroof fine\n", "WEBVTTX roof fine");
        // Times.
        row("hours", head + "01:00:01.000 --> 01:00:02.000\nroof\n", "3601000-3602000 roof");
        row("three digits of hours", head + "100:00:00.000 --> 100:00:01.000\nx roof\n",
            "360000000-360001000 x roof");
        row("spaces around the arrow", head + "00:01.000\t  -->  00:02.500\nroof\n",
            "1000-2500 roof");
        row("no spaces around the arrow", head + "00:01.000-->00:02.500\nroof\n", "1000-2500 roof");
        row("settings behind the time",
            head + time +
                " line:85% position:50% align:center size:40% vertical:rl region:a\nroof\n",
            "1000-2500 roof");
        row("unknown settings", head + time + " mood:grim\nroof\n", "1000-2500 roof");
        row("comma instead of the point",
            head + "00:01,000 --> 00:02,000\nroof\n\n" + time + "\nboot\n", "1000-2500 boot", "3");
        row("one digit of minutes", head + "0:01.000 --> 0:02.000\nroof\n\n" + time + "\nboot\n",
            "1000-2500 boot", "3");
        row("sixty seconds", head + "00:60.000 --> 01:02.000\nroof\n\n" + time + "\nboot\n",
            "1000-2500 boot", "3");
        row("two digits of thousandths",
            head + "00:01.00 --> 00:02.00\nroof\n\n" + time + "\nboot\n", "1000-2500 boot", "3");
        row("end missing", head + "00:01.000 -->\nroof\n\n" + time + "\nboot\n", "1000-2500 boot",
            "3");
        // Identifiers and the other blocks.
        row("number as identifier", head + "1\n" + time + "\nroof\n", "1000-2500 roof");
        row("words as identifier", head + "front of the car\n" + time + "\nroof\n",
            "1000-2500 roof");
        row("note in one line", head + "NOTE bumper cracked\n\n" + time + "\nroof\n",
            "1000-2500 roof");
        row("note of several lines", head + "NOTE\nbumper\ncracked\n\n" + time + "\nroof\n",
            "1000-2500 roof");
        row("note between cues", head + time + "\nroof\n\nNOTE jack noise\n\n" + time + "\nboot\n",
            "1000-2500 roof | 1000-2500 boot");
        row("style", head + "STYLE\n::cue { color: white; }\n\n" + time + "\nroof\n",
            "1000-2500 roof");
        row("region", head + "REGION\nid:a\nwidth:40%\n\n" + time + "\nroof\n", "1000-2500 roof");
        row("style after a cue is no style",
            head + time + "\nroof\n\nSTYLE\nx\n\n" + time + "\nboot\n",
            "1000-2500 roof | 1000-2500 boot", "6");
        row("text without a time", head + "stray words\nmore\n\n" + time + "\nroof\n",
            "1000-2500 roof", "3");
        row("cue without words", head + time + "\n\n" + time + "\nroof\n", "1000-2500 roof");
        row("a time right under words begins a cue",
            head + time + "\nroof\n00:03.000 --> 00:04.000\nboot\n",
            "1000-2500 roof | 3000-4000 boot");
        // Cue text.
        row("bold, italic, underlined, class, language",
            head + time +
                "\n<b>roof</b> <i>is</i> <u>quite</u> <c.loud>all</c> <lang en>right</lang>\n",
            "1000-2500 roof is quite all right");
        row("voice", head + time + "\n<v Ann>roof fine</v>\n", "1000-2500 Ann: roof fine");
        row("voice with a class", head + time + "\n<v.first.loud Ann Lee>roof\n",
            "1000-2500 Ann Lee: roof");
        row("two voices in one cue", head + time + "\n<v Ann>roof?</v>\n<v Bo>fine</v>\n",
            "1000-2500 Ann: roof? | 1000-2500 Bo: fine");
        row("ruby reading is not said", head + time + "\n<ruby>roof<rt>ruf</rt></ruby> fine\n",
            "1000-2500 roof fine");
        row("time inside", head + time + "\nroof <00:01.500>fine\n", "1000-2500 roof fine");
        row("tag never closed", head + time + "\nroof <b fine\n", "1000-2500 roof ");
        row("entities",
            head + time + "\n&lt;5 mm &amp; &gt;2&nbsp;mm &quot;x&quot; &#233; &#xe9;\n",
            "1000-2500 <5 mm & >2 mm \"x\" é é");
        row("no entity", head + time + "\nsalt & vinegar &nothing; &amp\n",
            "1000-2500 salt & vinegar &nothing; &amp");
        row("rolling captions",
            head + "00:01.000 --> 00:02.000\nthe front bumper\n\n"
                   "00:02.000 --> 00:02.010\nthe front bumper\n\n"
                   "00:02.010 --> 00:03.000\nthe front bumper\nis scuffed\n",
            "1000-2000 the front bumper | 2010-3000 is scuffed");
        // SubRip.
        row("SubRip",
            "1\n00:00:01,000 --> 00:00:02,500\nroof\nfine\n\n2\n00:00:03,000 --> "
            "00:00:04,000\nboot\n",
            "1000-2500 roof fine | 3000-4000 boot");
        row("SubRip with CRLF and mark",
            "\xef\xbb\xbf"
            "1\r\n00:00:01,000 --> 00:00:02,500\r\nroof\r\n",
            "1000-2500 roof");
        row("SubRip with points and tags", "1\n00:00:01.000 --> 00:00:02.500\n<i>roof</i>\n",
            "1000-2500 roof");
        row("SubRip, short thousandths", "1\n0:00:01,5 --> 0:00:02,5\nroof\n", "1500-2500 roof");
        row("SubRip, numbers missing",
            "00:00:01,000 --> 00:00:02,000\nroof\n\n00:00:03,000 --> "
            "00:00:04,000\nboot\n",
            "1000-2000 roof | 3000-4000 boot");
        row("SubRip, a number that is said", "1\n00:00:01,000 --> 00:00:02,000\nmiles\n28419\n\n",
            "1000-2000 miles 28419");
        row("SubRip, broken time",
            "1\n00:00:01,000 --> 00:00:02,000\nroof\n\n2\n00:xx --> y\n"
            "boot\n\n3\n00:00:05,000 --> 00:00:06,000\ngrille\n",
            "1000-2000 roof | 1000 boot | 5000-6000 grille", "6");
        row("SubRip, ends in the middle", "1\n00:00:01,000 --> 00:00:02,000\nroof\n\n2\n00:00:0",
            "1000-2000 roof 2 00:00:0");
        // Plain text.
        row("plain", "Roof fine.\nBoot fine.\n\nGrille.\n", "Roof fine. Boot fine. | Grille.");
        row("timed", "[0:07] Roof.\n\n[1:02:03] Boot.\n", "7000 Roof. | 3723000 Boot.");
        row("timed line by line", "[0:07] Roof.\n[0:09] Boot.\n", "7000 Roof. | 9000 Boot.");
        row("untimed behind timed keeps the time", "[0:07] Roof.\n\nBoot.\n",
            "7000 Roof. | 7000 Boot.");
        row("brackets that are no time", "[laughs] Roof.\n", "[laughs] Roof.");
        row("broken time", "[0:0x] Roof.\n", "Roof.", "1");
    }
    void parse()
    {
        QFETCH(QByteArray, file);
        const auto read = parseTranscript(file);
        QVERIFY2(read, qPrintable(read ? QString() : read.error()));
        QTEST(told(*read), "wanted");
        QTEST(warned(*read), "warnings");
    }

    void parse_notATranscript_isRefusedInWords_data()
    {
        QTest::addColumn<QByteArray>("file");
        QTest::newRow("empty") << QByteArray();
        QTest::newRow("blank") << QByteArray("\n \n");
        QTest::newRow("a picture") << QByteArray("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16);
        QTest::newRow("an appraisal file") << QByteArray("{\"format\": 1, \"findings\": []}");
        QTest::newRow("a web page") << QByteArray("<!doctype html><p>roof fine</p>");
        QTest::newRow("a printed page") << QByteArray("%PDF-1.7 roof fine");
        QTest::newRow("numbers") << QByteArray("1;2;3\n4;5;6\n");
        QTest::newRow("captions without words")
            << QByteArray("WEBVTT\n\n00:01.000 --> 00:02.000\n\n");
        QTest::newRow("sixteen bits") << QByteArray("W\0E\0B\0V\0T\0T\0", 12);
    }
    void parse_notATranscript_isRefusedInWords()
    {
        QFETCH(QByteArray, file);
        const auto read = parseTranscript(file);
        QVERIFY(!read);
        QVERIFY(!read.error().isEmpty());
    }

    void parse_manyFaults_areNotAllTold()
    {
        QByteArray file("WEBVTT\n\n");
        for (int i = 0; i < 500; ++i)
            file += "00:xx --> 00:02.000\nroof\n\n";
        file += "00:01.000 --> 00:02.000\nboot\n";
        const auto read = parseTranscript(file);
        QVERIFY(read);
        QCOMPARE(told(*read), QStringLiteral("1000-2000 boot"));
        QVERIFY(read->warnings.size() <= 50);
    }
};

QTEST_APPLESS_MAIN(TestTranscript)
#include "tst_transcript.moc"
