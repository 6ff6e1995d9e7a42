// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "paperfiles.h"
#include "recordbench.h"

#include "record/recordhtml.h"
#include "record/recordparts.h"
#include "record/recordpdf.h"
#include "support/testmain.h"

#include <QCryptographicHash>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QMessageAuthenticationCode>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QTest>

using namespace ramplight;
using namespace ramplight::test;

// The PDF as other programs and later checks see it.
class TestRecordPdf : public QObject, protected PaperFiles
{
    Q_OBJECT

private:
    /// As a program saves it that keeps what it shows; empty when that fails.
    [[nodiscard]] QByteArray uncompressed(const QByteArray& pdf) const
    {
        const QString path = write(QStringLiteral("packed.pdf"), pdf);
        const QString open = m_folder.filePath(QStringLiteral("unpacked.pdf"));
        const Ran ran =
            run(QStringLiteral("qpdf"), {QStringLiteral("--stream-data=uncompress"), path, open});
        return ran.code == 0 ? read(open) : QByteArray();
    }

    DrawnVault m_photos;

private slots:
    void pdf_isWhole_andHasTheWords()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        bench.release(id);
        const auto pdf = renderPdf(bench.record(id), m_photos);
        QVERIFY2(pdf.has_value(), qPrintable(faultOf(pdf)));
        const QString path = write(QStringLiteral("record.pdf"), *pdf);
        const Ran checked = run(QStringLiteral("qpdf"), {QStringLiteral("--check"), path});
        QVERIFY2(checked.code == 0, qPrintable(checked.out));
        const Ran text = run(QStringLiteral("pdftotext"),
                             {QStringLiteral("-layout"), path, QStringLiteral("-")});
        QCOMPARE(text.code, 0);
        for (const char* word :
             {"Handover record", "K1", "Halden Skerry", "QK 4471", "Released to sale", "Joss",
              "Two small chips on the bonnet", "What was found", "What was done", "Safety items",
              "the timer said 1 h 35 min", "lacquer has a run", "it was dirt", "1 of ",
              "Follow the maker's data"})
            QVERIFY2(text.out.contains(QString::fromUtf8(word)), word);
        const Ran info = run(QStringLiteral("pdfinfo"), {path});
        QVERIFY(info.out.contains(QStringLiteral("Handover record K1, Halden Skerry")));
        QVERIFY(info.out.contains(QStringLiteral("A4")));
        const Ran fonts = run(QStringLiteral("pdffonts"), {path});
        for (const char* font : {"-Regular", "-Bold"})
            QVERIFY2(fonts.out.contains(QString::fromLatin1(font)), qPrintable(fonts.out));
        QVERIFY2(!fonts.out.contains(QStringLiteral("Mono")), qPrintable(fonts.out));
    }

    void pdf_hasLanguageTitleAndOutline()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        bench.release(id);
        const RecordModel record = bench.record(id);
        const auto pdf = renderPdf(record, m_photos);
        QVERIFY2(pdf.has_value(), qPrintable(faultOf(pdf)));
        const QString path = write(QStringLiteral("outline.pdf"), *pdf);
        const Ran ran = run(QStringLiteral("qpdf"), {QStringLiteral("--json"),
                                                     QStringLiteral("--json-key=outlines"), path});
        QCOMPARE(ran.code, 0);
        const QJsonArray outline =
            QJsonDocument::fromJson(ran.out.toUtf8())[QStringLiteral("outlines")].toArray();
        QStringList sections;
        QStringList works;
        int page = 1;
        for (const QJsonValue& section : outline) {
            sections.append(section[QStringLiteral("title")].toString());
            const int at = section[QStringLiteral("destpageposfrom1")].toInt();
            QVERIFY2(at >= page, qPrintable(sections.back()));
            page = at;
            const QJsonArray kids = section[QStringLiteral("kids")].toArray();
            for (const QJsonValue& kid : kids)
                works.append(kid[QStringLiteral("title")].toString());
        }
        QCOMPARE(sections.front(), QStringLiteral("For the buyer"));
        for (const char* title : {"What is left as it is", "What was found", "Safety items",
                                  "What was done", "Release"})
            QVERIFY2(sections.contains(QString::fromUtf8(title)), title);
        QVERIFY(page > 1);
        QVERIFY(works.contains(record.operation(bench.refurb)->title));

        const QString open = m_folder.filePath(QStringLiteral("outline-open.pdf"));
        QCOMPARE(
            run(QStringLiteral("qpdf"),
                {QStringLiteral("--qdf"), QStringLiteral("--object-streams=disable"), path, open})
                .code,
            0);
        const QByteArray bytes = read(open);
        QVERIFY(bytes.contains("/Lang (en)"));
        QVERIFY(bytes.contains("/DisplayDocTitle true"));
        // Every typeface is in the file.
        const QStringList fonts = run(QStringLiteral("pdffonts"), {path})
                                      .out.split(QLatin1Char('\n'), Qt::SkipEmptyParts);
        QVERIFY(fonts.size() > 3);
        for (const QString& font : fonts.mid(2))
            QVERIFY2(font.contains(QRegularExpression(QStringLiteral("yes\\s+(yes|no)\\s+yes"))),
                     qPrintable(font));
    }

    // A page's commands name glyphs; which letters those are stands elsewhere.
    void stamp_ofChangedLetters_isRefused()
    {
        RecordBench bench;
        const auto pdf = renderPdf(bench.record(bench.worked()), m_photos);
        QByteArray bytes = uncompressed(*pdf);
        QVERIFY(readStamp(bytes).has_value());
        const qsizetype letters = bytes.indexOf("beginbf");
        const qsizetype digit = bytes.indexOf('>', bytes.indexOf('<', letters)) - 1;
        QVERIFY(letters > 0 && digit > letters);
        bytes[digit] = bytes.at(digit) == '5' ? '6' : '5';
        QCOMPARE(faultOf(readStamp(bytes)),
                 QStringLiteral("The pages of this PDF were changed after it was made."));
    }

    void stamp_underANoteOverThePage_isRefused()
    {
        RecordBench bench;
        const auto pdf = renderPdf(bench.record(bench.worked()), m_photos);
        const QString path = write(QStringLiteral("bare.pdf"), *pdf);
        const QString open = m_folder.filePath(QStringLiteral("noted.pdf"));
        QCOMPARE(run(QStringLiteral("qpdf"),
                     {QStringLiteral("--qdf"), QStringLiteral("--normalize-content=n"),
                      QStringLiteral("--object-streams=disable"), path, open})
                     .code,
                 0);
        QByteArray bytes = read(open);
        QVERIFY(readStamp(bytes).has_value());
        bytes.replace(
            "/Type /Page\n",
            "/Type /Page\n/Annots [ << /Type /Annot /Subtype /FreeText /Rect [ 9 9 99 99 ] "
            "/Contents (no accidents) >> ]\n");
        QVERIFY(bytes != read(open));
        QVERIFY2(faultOf(readStamp(bytes)).startsWith(QStringLiteral("Something was laid over")),
                 qPrintable(faultOf(readStamp(bytes))));
    }

    void stamp_comesBack()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const RecordModel record = bench.record(id);
        const auto pdf = renderPdf(record, m_photos);
        QVERIFY(pdf.has_value());
        const auto stamp = readStamp(*pdf);
        QVERIFY2(stamp.has_value(), qPrintable(faultOf(stamp)));
        QCOMPARE(*stamp, stampOf(record));
        QCOMPARE(stamp->car, id.text);
        QCOMPARE(stamp->seq, record.seq);
        QCOMPARE(stamp->modelDigest, record.digest());
        QVERIFY(checkRecord(*stamp, bench.car(id), bench.history(id), bench.site(), bench.head(id),
                            bench.line)
                    .agrees);
    }

    void seal_tellsWhoMadeThePagesNew_data()
    {
        QTest::addColumn<bool>("asHtml");
        QTest::newRow("PDF") << false;
        QTest::newRow("HTML") << true;
    }

    void seal_tellsWhoMadeThePagesNew()
    {
        QFETCH(bool, asHtml);
        const auto keyed = [](const char* id, const char* key) {
            return RecordSealer{QString::fromLatin1(id), [key](const QByteArray& bytes) {
                                    return QMessageAuthenticationCode::hash(
                                        bytes, key, QCryptographicHash::Sha256);
                                }};
        };
        const RecordSealer ours = keyed("ours", "a key");
        RecordBench bench;
        const RecordModel record = bench.record(bench.worked());
        const auto render = [&](const RecordModel& model, const RecordSealer& sealer) {
            const auto made =
                asHtml ? renderHtml(model, m_photos, sealer) : renderPdf(model, m_photos, sealer);
            return made ? *made : QByteArray();
        };
        QCOMPARE(sealOf(render(record, ours), ours), RecordSeal::Whole);
        QCOMPARE(sealOf(render(record, {}), ours), RecordSeal::None);
        QCOMPARE(sealOf(render(record, keyed("theirs", "a key")), ours), RecordSeal::OfAnotherKey);
        // Other words under a true stamp, by somebody who knows how stamps are made.
        RecordModel forged = record;
        forged.site = QStringLiteral("another house");
        const QByteArray file = render(forged, keyed("ours", "a guess"));
        QCOMPARE(*readStamp(file), stampOf(record));
        QCOMPARE(sealOf(file, ours), RecordSeal::Broken);
    }

    void stamp_ofAFileSavedAgain_comesBack()
    {
        RecordBench bench;
        const auto pdf = renderPdf(bench.record(bench.worked()), m_photos);
        const QByteArray again = uncompressed(*pdf);
        QVERIFY(!again.isEmpty());
        QVERIFY(again != *pdf);
        QCOMPARE(*readStamp(again), *readStamp(*pdf));
    }

    void stamp_ofChangedPages_isRefused_data()
    {
        QTest::addColumn<QStringList>("change");
        QTest::newRow("a page taken out")
            << QStringList{QStringLiteral("--pages"), QStringLiteral("."), QStringLiteral("2-z"),
                           QStringLiteral("--")};
        QTest::newRow("a page twice") << QStringList{QStringLiteral("--pages"), QStringLiteral("."),
                                                     QStringLiteral("1-z,1"), QStringLiteral("--")};
        QTest::newRow("pages in another order")
            << QStringList{QStringLiteral("--pages"), QStringLiteral("."), QStringLiteral("z-1"),
                           QStringLiteral("--")};
    }

    void stamp_ofChangedPages_isRefused()
    {
        QFETCH(QStringList, change);
        RecordBench bench;
        const auto pdf = renderPdf(bench.record(bench.worked()), m_photos);
        const QString path = write(QStringLiteral("whole.pdf"), *pdf);
        const QString changed = m_folder.filePath(QStringLiteral("changed.pdf"));
        QCOMPARE(
            run(QStringLiteral("qpdf"), QStringList{path} + change + QStringList{changed}).code, 0);
        const auto stamp = readStamp(read(changed));
        QVERIFY(!stamp.has_value());
        QCOMPARE(stamp.error(),
                 QStringLiteral("The pages of this PDF were changed after it was made."));
    }

    void stamp_ofChangedDrawing_isRefused()
    {
        RecordBench bench;
        const auto pdf = renderPdf(bench.record(bench.worked()), m_photos);
        const QByteArray open = uncompressed(*pdf);
        QByteArray bytes = open;
        // One glyph of the first text that is shown.
        const qsizetype shown = bytes.indexOf("> Tj");
        QVERIFY(shown > 0);
        bytes[shown - 1] = bytes.at(shown - 1) == '5' ? '6' : '5';
        QVERIFY(readStamp(open).has_value());
        QCOMPARE(faultOf(readStamp(bytes)),
                 QStringLiteral("The pages of this PDF were changed after it was made."));
    }

    void stamp_ofWhatIsNoRecord_isRefused_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::newRow("nothing") << QByteArray();
        QTest::newRow("no PDF") << QByteArray("an ordinary letter\n");
        QTest::newRow("begins like one") << QByteArray("%PDF-1.7\n%%EOF\n");
        QTest::newRow("half of one") << QByteArray("half");
        QTest::newRow("without a stamp") << QByteArray("plain");
    }

    void stamp_ofWhatIsNoRecord_isRefused()
    {
        QFETCH(QByteArray, bytes);
        if (bytes == "half" || bytes == "plain") {
            RecordBench bench;
            const auto pdf = renderPdf(bench.record(bench.bringIn()), m_photos);
            QVERIFY(pdf.has_value());
            if (bytes == "half") {
                bytes = pdf->left(pdf->size() / 2);
            } else {
                const QString path = write(QStringLiteral("stamped.pdf"), *pdf);
                const QString bare = m_folder.filePath(QStringLiteral("bare.pdf"));
                QCOMPARE(
                    run(QStringLiteral("qpdf"),
                        {QStringLiteral("--remove-attachment=ramplight-record.json"), path, bare})
                        .code,
                    0);
                bytes = read(bare);
            }
        }
        const auto stamp = readStamp(bytes);
        QVERIFY(!stamp.has_value());
        QVERIFY(!stamp.error().isEmpty());
    }

    void screen_hasTheSamePages()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const RecordModel record = bench.record(id);
        const auto pdf = renderPdf(record, m_photos);
        const std::vector<QImage> pages = renderPages(record, m_photos);
        const Ran info = run(QStringLiteral("pdfinfo"), {write(QStringLiteral("pages.pdf"), *pdf)});
        QVERIFY(info.out.contains(
            QRegularExpression(QStringLiteral("Pages:\\s+%1\\n").arg(pages.size()))));
        for (const QImage& page : pages) {
            QCOMPARE(page.size(), QSize(909, 1286));
            QCOMPARE(page.pixelColor(3, 3), QColor(Qt::white));
        }
        // Something of every page is ink.
        for (const QImage& page : pages) {
            qsizetype dark = 0;
            for (int y = 0; y < page.height(); ++y)
                for (int x = 0; x < page.width(); ++x)
                    dark += qGray(page.pixel(x, y)) < 90 ? 1 : 0;
            QVERIFY2(dark > 500, qPrintable(QString::number(dark)));
        }
    }

    void photo_thatIsLost_leavesAFrameWithTheReason()
    {
        RecordBench bench;
        const CarId id = bench.worked();
        const RecordModel record = bench.record(id);
        DrawnVault lossy;
        for (const RecordOperation& operation : record.operations)
            for (const RecordPhoto& photo : operation.photos)
                lossy.lost.insert(photo.photo);
        const auto pdf = renderPdf(record, lossy);
        QVERIFY(pdf.has_value());
        const Ran text = run(QStringLiteral("pdftotext"),
                             {write(QStringLiteral("lost.pdf"), *pdf), QStringLiteral("-")});
        const QString why = words(EvidenceError::NoSuchPhoto).section(QLatin1Char(' '), 0, 2);
        QVERIFY2(text.out.simplified().contains(why), qPrintable(why));
        QVERIFY(readStamp(*pdf).has_value());
    }

    // RAMPLIGHT_RECORD_OUT=FOLDER leaves a released record, a draft and a long one to look at.
    void samples_toLookAt()
    {
        const QString folder = qEnvironmentVariable("RAMPLIGHT_RECORD_OUT");
        if (folder.isEmpty())
            QSKIP("no folder was named");
        RecordBench bench;
        const CarId id = bench.worked();
        const auto keep = [&](const char* name, const RecordModel& record) {
            const auto pdf = renderPdf(record, m_photos);
            QVERIFY(pdf.has_value());
            QFile file(QStringLiteral("%1/%2.pdf").arg(folder, QString::fromLatin1(name)));
            QVERIFY(file.open(QIODevice::WriteOnly) && file.write(*pdf) == pdf->size());
            QFile html(QStringLiteral("%1/%2.html").arg(folder, QString::fromLatin1(name)));
            const auto text = renderHtml(record, m_photos);
            QVERIFY(html.open(QIODevice::WriteOnly) && html.write(*text) == text->size());
            int number = 0;
            for (const QImage& page : renderPages(record, m_photos))
                QVERIFY(page.save(QStringLiteral("%1/%2-%3.png")
                                      .arg(folder, QString::fromLatin1(name))
                                      .arg(++number)));
        };
        keep("unsigned", bench.record(id));
        bench.release(id);
        keep("released", bench.record(id));
        keep("long", bench.record(bench.battered()));
    }
};

RAMPLIGHT_TEST(QGuiApplication, TestRecordPdf)
#include "tst_recordpdf.moc"
