// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "recordbench.h"

#include "domain/carcommands.h"
#include "record/firstpage.h"
#include "record/htmlphotos.h"
#include "record/htmltext.h"
#include "record/recordhtml.h"
#include "record/recordlayout.h"
#include "record/recordparts.h"
#include "support/testmain.h"

#include <QBuffer>
#include <QRandomGenerator>
#include <QRegularExpression>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

namespace {

/// Every photo is noise, which no encoder makes small.
class NoisyVault : public DrawnVault
{
public:
    [[nodiscard]] tl::expected<QByteArray, EvidenceError>
    thumbnail(const PhotoId& id, ThumbnailSize size) const override
    {
        const int side = static_cast<int>(size);
        QImage image(side, side * 3 / 4, QImage::Format_RGB32);
        QRandomGenerator random(static_cast<quint32>(qHash(id.text)));
        for (int y = 0; y < image.height(); ++y)
            random.fillRange(reinterpret_cast<quint32*>(image.scanLine(y)), image.width());
        QByteArray bytes;
        QBuffer buffer(&bytes);
        buffer.open(QIODevice::WriteOnly);
        image.save(&buffer, "JPEG", 95);
        return bytes;
    }
};

/// Names of the elements in their order; their attributes go to `attributes`.
QStringList elementsOf(const QString& html, QStringList& attributes)
{
    static const QRegularExpression element(QStringLiteral("<(/?[a-zA-Z!][a-zA-Z0-9]*)([^>]*)>"));
    static const QRegularExpression attribute(QStringLiteral("([a-zA-Z-]+)=\"([^\"]*)\""));
    QStringList names;
    auto it = element.globalMatch(html);
    while (it.hasNext()) {
        const QRegularExpressionMatch match = it.next();
        names.append(match.captured(1));
        auto each = attribute.globalMatch(match.captured(2));
        while (each.hasNext())
            attributes.append(each.next().captured(1));
    }
    return names;
}

/// What a reader sees, white space as one space.
QString shownBy(QString html)
{
    static const QRegularExpression style(QStringLiteral("<style>.*?</style>"),
                                          QRegularExpression::DotMatchesEverythingOption);
    static const QRegularExpression element(QStringLiteral("<[^>]*>"));
    html.remove(style);
    html.replace(QStringLiteral("<br>"), QStringLiteral(" "));
    html.replace(element, QStringLiteral(" "));
    html.replace(QStringLiteral("&lt;"), QStringLiteral("<"));
    html.replace(QStringLiteral("&gt;"), QStringLiteral(">"));
    html.replace(QStringLiteral("&quot;"), QStringLiteral("\""));
    html.replace(QStringLiteral("&#39;"), QStringLiteral("'"));
    html.replace(QStringLiteral("&amp;"), QStringLiteral("&"));
    return html.simplified();
}

} // namespace

// The record as one file for any browser.
class TestRecordHtml : public QObject
{
    Q_OBJECT

private:
    [[nodiscard]] QString htmlOf(const RecordModel& record) const
    {
        const auto html = renderHtml(record, m_photos);
        return html ? QString::fromUtf8(*html) : QString();
    }

    /// A record with these words wherever somebody may type some.
    static RecordModel with(RecordModel record, const QString& words)
    {
        record.site = words;
        record.standingLine = words;
        record.identity.stockNumber = words;
        record.identity.registration = words;
        record.identity.make = words;
        record.identity.colour = words;
        record.identity.vin = words;
        for (RecordPerson& person : record.people)
            person.name = words;
        for (RecordFinding& finding : record.findings)
            for (RecordFindingVersion& version : finding.versions) {
                version.data.note = words;
                version.words = words;
                version.reason = words;
            }
        for (RecordOperation& operation : record.operations) {
            operation.title = words;
            operation.reason = words;
            operation.leftWords = operation.leftWords.isEmpty() ? QString() : words;
            for (RecordReading& reading : operation.readings)
                reading.valueWords = words;
            for (RecordSignature& signature : operation.signatures)
                signature.note = words;
            for (RecordPhoto& photo : operation.photos)
                photo.words = words;
            for (RecordStep& step : operation.steps)
                step.words = words;
        }
        return record;
    }

    DrawnVault m_photos;

private slots:
    void words_areThoseOfThePages_inTheirOrder()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        bench.release(id);
        const RecordModel record = bench.record(id);
        const QString shown = shownBy(htmlOf(record));
        const auto pages = paper::layOut(record);
        // Heads and feet belong to paper, and what a page goes on with.
        for (const paper::Page& page : pages)
            for (const paper::Item& item : page)
                if (const auto* text = std::get_if<paper::Text>(&item);
                    text != nullptr && text->baseline.y() < paper::bottom &&
                    text->baseline.y() > 16 * paper::mm &&
                    !text->text.endsWith(QStringLiteral(", continued")))
                    QVERIFY2(shown.contains(text->text.simplified()), qPrintable(text->text));
        paper::Page front;
        qsizetype at = 0;
        const paper::Flow flow = paper::flowOf(record, paper::addFront(front, record));
        for (const paper::Told& told : flow.told())
            if (const auto* row = std::get_if<paper::told::Row>(&told))
                for (const paper::Cell& cell : row->cells) {
                    const qsizetype found = shown.indexOf(cell.text.simplified(), at);
                    QVERIFY2(found >= at, qPrintable(cell.text));
                    at = found;
                }
    }

    void whoMeasured_andWhoReadTheCautions_areToldApart()
    {
        RecordBench bench;
        const QString shown = shownBy(htmlOf(bench.record(bench.worked())));
        QVERIFY(shown.contains(QStringLiteral("Measured by")));
        QVERIFY(shown.contains(QStringLiteral("Cautions read by ")));
        QVERIFY(!shown.contains(QStringLiteral("Read by")));
    }

    void tyreThatWasMeasured_isNotDrawnAsSomethingStillThere()
    {
        RecordBench bench;
        const CarId id = bench.bringIn();
        bench.must(bench.appraiser, id,
                   car::RecordTyre{PlaceId{QStringLiteral("tyre-front-left")}, Tread{52, 55, 51},
                                   QStringLiteral("2329"), QStringLiteral("205/55 R16 91V")});
        std::vector<paper::Car> plans;
        for (const paper::Page& page : paper::layOut(bench.record(id)))
            for (const paper::Item& item : page)
                if (const auto* car = std::get_if<paper::Car>(&item))
                    plans.push_back(*car);
        QCOMPARE(plans.size(), std::size_t{2}); // on the front, and that of the tyres
        QVERIFY(plans.back().marks.isEmpty());
    }

    void file_needsNothingBesideIt()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        const QString html = htmlOf(record);
        QVERIFY(html.startsWith(QStringLiteral("<!DOCTYPE html>\n<html lang=\"en\">")));
        QVERIFY(html.contains(QStringLiteral("<title>Handover record K1, Halden Skerry</title>")));
        QVERIFY(html.contains(QStringLiteral("default-src 'none'")));
        for (const char* none :
             {"<script", "<link", "<iframe", "http:", "https:", "javascript:", "@import"})
            QVERIFY2(!html.contains(QString::fromLatin1(none)), none);
        static const QRegularExpression source(QStringLiteral("(src=\"|url\\()([^\")]*)"));
        int pictures = 0;
        auto it = source.globalMatch(html);
        while (it.hasNext()) {
            const QString from = it.next().captured(2);
            QVERIFY2(from.startsWith(QLatin1String("data:")) || from.startsWith(QLatin1Char('#')),
                     qPrintable(from.left(60)));
            pictures += from.startsWith(QLatin1String("data:image/jpeg")) ? 1 : 0;
        }
        QVERIFY(pictures > 2);
        QCOMPARE(html.count(QStringLiteral("<img alt=\"")), pictures);
        // Drawings say what they show.
        QCOMPARE(html.count(QStringLiteral("<svg ")),
                 html.count(QStringLiteral("<svg role=\"img\" aria-label=\"")));
        QVERIFY(html.count(QStringLiteral("<svg ")) > 4);
    }

    void hostileWords_stayWords_data()
    {
        QTest::addColumn<QString>("words");
        QTest::newRow("script") << "<script>alert(1)</script>";
        QTest::newRow("picture") << "<img src=x onerror=alert(1)>";
        QTest::newRow("end of a value") << "\" onload=\"alert(1)\" x=\"";
        QTest::newRow("single quotes") << "' onload='alert(1)' x='";
        QTest::newRow("end of the style") << "</style><script>alert(1)</script>";
        QTest::newRow("style sheet") << "\"} body{display:none} @import url(//x.test/y); \\";
        QTest::newRow("end of everything") << "</p></section></main></body></html><!--";
        QTest::newRow("entities") << "&lt;script&gt; &amp;&#x3c;b&#62;";
        QTest::newRow("a stamp") << "<meta name=\"ramplight-record\" content=\"e30=\">";
        QTest::newRow("control characters")
            << QStringLiteral("a%1b%2<b>").arg(QChar(0)).arg(QChar(27));
        QTest::newRow("half a character") << QString(QChar(0xd83d)) + "<b>";
        QTest::newRow("turned round") << QString(QChar(0x202e)) + "<b>" + QChar(0x2066);
    }

    void hostileWords_stayWords()
    {
        QFETCH(QString, words);
        RecordBench bench;
        const CarId id = bench.worked();
        bench.release(id);
        const RecordModel record = bench.record(id);
        QStringList plainAttributes;
        QStringList attributes;
        const QStringList plain =
            elementsOf(htmlOf(with(record, QStringLiteral("plain"))), plainAttributes);
        const QString html = htmlOf(with(record, words));
        // The same elements with the same attributes, whatever was typed. How many findings the
        // first page has room for is another matter: long words take more of it.
        const QStringList elements = elementsOf(html, attributes);
        const QSet<QString> known(plain.begin(), plain.end());
        for (const QString& name : elements)
            QVERIFY2(known.contains(name), qPrintable(name));
        const QSet<QString> knownAttributes(plainAttributes.begin(), plainAttributes.end());
        for (const QString& name : attributes)
            QVERIFY2(knownAttributes.contains(name), qPrintable(name));
        for (const char* once : {"</style>", "</head>", "</body>", "<main>", "</html>", "<title>"})
            QCOMPARE(html.count(QString::fromLatin1(once)), 1);
        QVERIFY(!html.contains(QChar(0x202e)) && !html.contains(QChar(0)));
        QVERIFY(readStamp(html.toUtf8()).has_value());
        // In the style sheet nothing of it is more than a string.
        const QString style =
            html.section(QStringLiteral("<style>"), 1).section(QStringLiteral("</style>"), 0, 0);
        QVERIFY(!style.contains(QLatin1String("display:none} @import")));
        QVERIFY(!style.contains(QLatin1Char('<')));
    }

    void words_comeThroughWhole()
    {
        const QString words =
            QStringLiteral("1 < 2 & \"3\" > '2' Ünï %1").arg(QString::fromUtf8("😀"));
        QCOMPARE(shownBy(htmlText(words)), words);
        QCOMPARE(cssText(QStringLiteral("T-3 \"}")), QStringLiteral("T-3 \\22 \\7d "));
    }

    void stamp_comesBack_andEveryChangeIsSeen()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const RecordModel record = bench.record(id);
        const auto html = renderHtml(record, m_photos);
        QVERIFY(html.has_value());
        const auto stamp = readStamp(*html);
        QVERIFY2(stamp.has_value(), qPrintable(stamp ? QString() : stamp.error()));
        QCOMPARE(*stamp, stampOf(record));
        for (const qsizetype at : {html->indexOf("<html") + 12, html->indexOf("Skerry"),
                                   html->lastIndexOf("base64,") + 60, html->size() - 2}) {
            QByteArray changed = *html;
            changed[at] = char(changed.at(at) ^ 1);
            QVERIFY2(!readStamp(changed), qPrintable(QString::number(at)));
        }
        QVERIFY(!readStamp(*html + "\n"));
        QVERIFY(!readStamp(html->left(html->size() - 1)));
        QByteArray other = *html;
        other.replace("released", "Released");
        QVERIFY(!readStamp(other));
        // What stands in the value itself is held against the ledger, as in a PDF.
        const qsizetype value = html->indexOf("content=\"") + 9;
        QByteArray cut = *html;
        cut.remove(value + 10, 8);
        QVERIFY(!readStamp(cut));
        QVERIFY(!readStamp("<!DOCTYPE html>\n<html><head></head></html>"));
        QVERIFY(!readStamp("<!DOCTYPE html>\n<meta name=\"ramplight-record\" content=\""));
    }

    void photos_areBounded_eachAndTogether()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        RecordModel record = bench.record(id);
        RecordOperation& operation = record.operations.front();
        for (int i = 0; i < 80; ++i)
            operation.photos.push_back({PhotoId{QStringLiteral("noise-%1").arg(i)},
                                        PhotoMoment::During, bench.mechanic, record.madeAt,
                                        QStringLiteral("during")});
        const NoisyVault noisy;
        const qsizetype each = mostBytesEach(80);
        QVERIFY(each < mostBytesEach(1));
        QVERIFY(noisy.thumbnail(operation.photos.back().photo, ThumbnailSize::Panel)->size() >
                each);
        const auto photo = boundedPhoto(noisy, operation.photos.back().photo, each);
        QVERIFY(photo.has_value());
        QVERIFY(photo->jpeg.size() <= each);
        QCOMPARE(QImage::fromData(photo->jpeg).size(), photo->size);
        const auto html = renderHtml(record, noisy);
        QVERIFY(html.has_value());
        QCOMPARE(html->count("data:image/jpeg"), html->count("<img "));
        QVERIFY(html->count("<img ") >= 80);
        QVERIFY2(html->size() < 15LL * 1000 * 1000, qPrintable(QString::number(html->size())));
    }

    void photo_thatIsLost_leavesAFrameWithTheReason()
    {
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        DrawnVault lossy;
        for (const RecordOperation& operation : record.operations)
            for (const RecordPhoto& photo : operation.photos)
                lossy.lost.insert(photo.photo);
        QVERIFY(!lossy.lost.empty());
        const auto html = renderHtml(record, lossy);
        QVERIFY(html.has_value());
        QVERIFY(html->contains("<p class=\"lost"));
        QVERIFY(shownBy(QString::fromUtf8(*html)).contains(words(EvidenceError::NoSuchPhoto)));
    }

    void photo_removedUnderTheRetention_leavesWords()
    {
        RecordBench bench;
        RecordModel record = bench.record(bench.worked());
        qsizetype removed = 0;
        for (RecordOperation& operation : record.operations)
            for (RecordPhoto& photo : operation.photos) {
                photo.gone = QStringLiteral("removed after 6 years");
                ++removed;
            }
        QVERIFY(removed > 0);
        const auto whole = renderHtml(bench.record(bench.worked()), DrawnVault());
        const auto html = renderHtml(record, DrawnVault());
        QVERIFY(html && whole);
        QCOMPARE(html->count("<img "), whole->count("<img ") - removed);
        QCOMPARE(html->count("Removed after 6 years"), removed);
    }
};

RAMPLIGHT_TEST(QGuiApplication, TestRecordHtml)
#include "tst_recordhtml.moc"
