// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/sitekeyfile.h"
#include "support/testmain.h"

#include <QFile>
#include <QFileInfo>
#include <QTemporaryDir>
#include <QTest>
#include <QThreadPool>

#include <sys/resource.h>
#include <sys/stat.h>

#include <atomic>
#include <csignal>
#include <functional>

using namespace ramplight;

namespace {

QByteArray contentOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

void put(const QString& path, const QByteArray& bytes, mode_t mode = 0600)
{
    QFile file(path);
    QVERIFY(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
    QCOMPARE(file.write(bytes), bytes.size());
    file.close();
    QCOMPARE(::chmod(QFile::encodeName(path).constData(), mode), 0);
}

using Change = std::function<QByteArray(QByteArray)>;

} // namespace

class TestSiteKeyFile : public QObject
{
    Q_OBJECT

private slots:
    void init()
    {
        m_folder = std::make_unique<QTemporaryDir>();
        QVERIFY(m_folder->isValid());
        m_path = m_folder->filePath(QStringLiteral("site.key"));
    }

    void create_thenRead_givesTheSameKeys()
    {
        const auto made = SiteKeyFile(m_path).create();
        QVERIFY(made);
        const auto found = SiteKeyFile(m_path).read();
        QVERIFY(found);
        QCOMPARE(found->id(), made->id());
        QCOMPARE(found->id().size(), 16);
        QVERIFY(found->pepper() == made->pepper());
        QCOMPARE(found->pepper().size(), SiteKeys::keyBytes);
        QVERIFY(!(found->pepper() == found->digestKey()));
        QCOMPARE(found->keyedDigest("head"), made->keyedDigest("head"));
    }

    void renewed_keepsTheDigestKeysOfBefore()
    {
        const auto first = SiteKeyFile(m_path).create();
        QVERIFY(first);
        const SiteKeys second = first->renewed();
        const SiteKeys third = second.renewed();
        QVERIFY(third.id() != second.id() && second.id() != first->id());
        QVERIFY(!(second.pepper() == first->pepper()));
        const QString path = m_folder->filePath(QStringLiteral("renewed.key"));
        QVERIFY(SiteKeyFile(path).write(third));
        QCOMPARE(SiteKeyFile(path).write(third).error(), AccessError::KeyFileExists);
        const auto found = SiteKeyFile(path).read();
        QVERIFY(found);
        QCOMPARE(found->id(), third.id());
        QCOMPARE(found->past().size(), std::size_t{2});
        QCOMPARE(found->past().front().id, first->id());
        QCOMPARE(found->pastDigest(first->id(), "head"), first->keyedDigest("head"));
        QCOMPARE(found->pastDigest(second.id(), "head"), second.keyedDigest("head"));
        QVERIFY(found->keyedDigest("head") != second.keyedDigest("head"));
        QVERIFY(found->pastDigest(third.id(), "head").isEmpty());
        // A line that is gone, or one more than there may be, is damage.
        QByteArray text = contentOf(path);
        put(path,
            text.replace(text.indexOf("past "),
                         text.indexOf("past ", text.indexOf("past ") + 1) - text.indexOf("past "),
                         ""));
        QCOMPARE(SiteKeyFile(path).read().error(), AccessError::KeyFileDamaged);
    }

    void asManyPastKeysAsThereMayBe_fit()
    {
        SiteKeys keys = SiteKeys::fresh();
        for (std::size_t i = 0; i < SiteKeys::mostPast; ++i)
            keys = keys.renewed();
        QVERIFY(SiteKeyFile(m_path).write(keys));
        QCOMPARE(SiteKeyFile(m_path).read()->past().size(), SiteKeys::mostPast);
    }

    void copyOnAStick_isReadWhoeverMayReadIt()
    {
        const SiteKeys keys = SiteKeys::fresh();
        QVERIFY(SiteKeyFile(m_path).writeOnStick(keys));
        QCOMPARE(SiteKeyFile(m_path).writeOnStick(keys).error(), AccessError::KeyFileExists);
        QCOMPARE(SiteKeyFile(m_path).read()->id(), keys.id());
        QCOMPARE(::chmod(QFile::encodeName(m_path).constData(), 0644), 0);
        QCOMPARE(SiteKeyFile(m_path).read().error(), AccessError::KeyFileTooOpen);
        QCOMPARE(SiteKeyFile(m_path).readFromStick()->id(), keys.id());
    }

    void create_isForTheOwnerAloneWhateverTheUmask()
    {
        const mode_t before = ::umask(0);
        const auto made = SiteKeyFile(m_path).create();
        ::umask(before);
        QVERIFY(made);
        struct stat facts
        {
        };
        QCOMPARE(::stat(QFile::encodeName(m_path).constData(), &facts), 0);
        QCOMPARE(facts.st_mode & 07777, mode_t{0600});
        QCOMPARE(QDir(m_folder->path()).entryList(QDir::Files | QDir::Hidden),
                 QStringList{QStringLiteral("site.key")}); // no draft left
    }

    void create_neverOverwrites()
    {
        put(m_path, "something precious");
        const auto made = SiteKeyFile(m_path).create();
        QVERIFY(!made);
        QCOMPARE(made.error(), AccessError::KeyFileExists);
        QCOMPARE(contentOf(m_path), QByteArray("something precious"));
        QCOMPARE(QDir(m_folder->path()).entryList(QDir::Files | QDir::Hidden).size(), 1);
    }

    void create_manyAtOnce_oneWins()
    {
        std::atomic<int> made = 0;
        std::atomic<int> refused = 0;
        QThreadPool pool;
        pool.setMaxThreadCount(8);
        for (int i = 0; i < 16; ++i)
            pool.start([&] {
                const auto keys = SiteKeyFile(m_path).create();
                if (keys)
                    ++made;
                else if (keys.error() == AccessError::KeyFileExists)
                    ++refused;
            });
        pool.waitForDone();
        QCOMPARE(made.load(), 1);
        QCOMPARE(refused.load(), 15);
        QVERIFY(SiteKeyFile(m_path).read());
    }

    void create_withoutFolder()
    {
        const auto made = SiteKeyFile(m_folder->filePath(QStringLiteral("no/site.key"))).create();
        QVERIFY(!made);
        QCOMPARE(made.error(), AccessError::KeyFileNoWriting);
    }

    void create_diskRefusesBytes_leavesNothing()
    {
        // A limit on file sizes fails write() as a full disk would.
        struct rlimit before
        {
        };
        QCOMPARE(::getrlimit(RLIMIT_FSIZE, &before), 0);
        const auto handler = std::signal(SIGXFSZ, SIG_IGN);
        const struct rlimit tight
        {
            .rlim_cur = 16, .rlim_max = before.rlim_max
        };
        QCOMPARE(::setrlimit(RLIMIT_FSIZE, &tight), 0);
        const auto made = SiteKeyFile(m_path).create();
        ::setrlimit(RLIMIT_FSIZE, &before);
        std::signal(SIGXFSZ, handler);
        QVERIFY(!made);
        QCOMPARE(made.error(), AccessError::KeyFileNoWriting);
        QVERIFY(QDir(m_folder->path()).entryList(QDir::Files | QDir::Hidden).isEmpty());
    }

    void read_missing()
    {
        const auto found = SiteKeyFile(m_path).read();
        QVERIFY(!found);
        QCOMPARE(found.error(), AccessError::KeyFileMissing);
        QVERIFY(!words(found.error()).isEmpty());
    }

    void read_mode_data()
    {
        QTest::addColumn<int>("mode");
        QTest::addColumn<bool>("good");
        QTest::newRow("owner reads and writes") << 0600 << true;
        QTest::newRow("owner reads") << 0400 << true;
        QTest::newRow("group reads") << 0640 << false;
        QTest::newRow("others read") << 0604 << false;
        QTest::newRow("group writes") << 0620 << false;
        QTest::newRow("everybody") << 0666 << false;
    }

    void read_mode()
    {
        QFETCH(int, mode);
        QFETCH(bool, good);
        QVERIFY(SiteKeyFile(m_path).create());
        QCOMPARE(::chmod(QFile::encodeName(m_path).constData(), static_cast<mode_t>(mode)), 0);
        const auto found = SiteKeyFile(m_path).read();
        QCOMPARE(found.has_value(), good);
        if (!good) {
            QCOMPARE(found.error(), AccessError::KeyFileTooOpen);
            QVERIFY(words(found.error()).contains(QStringLiteral("0600")));
        }
    }

    void read_changedFile_data()
    {
        QTest::addColumn<Change>("change");
        QTest::addColumn<AccessError>("error");
        const auto row = [](const char* name, const Change& change, AccessError error) {
            QTest::newRow(name) << change << error;
        };
        using enum AccessError;
        row(
            "empty", [](const QByteArray&) { return QByteArray(); }, KeyFileDamaged);
        row(
            "something else", [](const QByteArray&) { return QByteArray("hello\n"); },
            KeyFileDamaged);
        row(
            "megabytes of it", [](const QByteArray& b) { return b + QByteArray(2'000'000, 'a'); },
            KeyFileDamaged);
        row(
            "last byte cut", [](const QByteArray& b) { return b.chopped(1); }, KeyFileDamaged);
        row(
            "half", [](const QByteArray& b) { return b.left(b.size() / 2); }, KeyFileDamaged);
        row(
            "a line more", [](const QByteArray& b) { return b + "more 1\n"; }, KeyFileDamaged);
        row(
            "windows line ends", [](QByteArray b) { return b.replace("\n", "\r\n"); },
            KeyFileDamaged);
        row(
            "lines swapped",
            [](QByteArray b) {
                return b.replace("pepper", "x")
                    .replace("digest", "pepper")
                    .replace("\nx", "\ndigest");
            },
            KeyFileDamaged);
        row(
            "newer version",
            [](QByteArray b) { return b.replace("site-keys 1\n", "site-keys 3\n"); }, KeyFileNewer);
        row(
            "newer version, other lines",
            [](const QByteArray&) { return QByteArray("ramplight-site-keys 12\nall different\n"); },
            KeyFileNewer);
        row(
            "version zero",
            [](QByteArray b) { return b.replace("site-keys 1\n", "site-keys 0\n"); },
            KeyFileDamaged);
        row(
            "version no number",
            [](QByteArray b) { return b.replace("site-keys 1\n", "site-keys 1a\n"); },
            KeyFileDamaged);
    }

    void read_changedFile()
    {
        QFETCH(Change, change);
        QFETCH(AccessError, error);
        QVERIFY(SiteKeyFile(m_path).create());
        put(m_path, change(contentOf(m_path)));
        const auto found = SiteKeyFile(m_path).read();
        QVERIFY(!found);
        QCOMPARE(found.error(), error);
    }

    void read_anyFlippedBit_isNoticed()
    {
        QVERIFY(SiteKeyFile(m_path).create());
        const QByteArray whole = contentOf(m_path);
        for (qsizetype bit = 0; bit < whole.size() * 8; ++bit) {
            QByteArray bent = whole;
            bent[bit / 8] = static_cast<char>(bent[bit / 8] ^ (1 << (bit % 8)));
            put(m_path, bent);
            QVERIFY2(!SiteKeyFile(m_path).read(), qPrintable(QString::number(bit)));
        }
    }

    void read_whatIsNoFile()
    {
        const auto folder = SiteKeyFile(m_folder->path()).read();
        QVERIFY(!folder);
        QCOMPARE(folder.error(), AccessError::KeyFileDamaged);
        QCOMPARE(::mkfifo(QFile::encodeName(m_path).constData(), 0600), 0);
        const auto pipe = SiteKeyFile(m_path).read(); // and does not wait for a writer
        QVERIFY(!pipe);
        QCOMPARE(pipe.error(), AccessError::KeyFileDamaged);
    }

    void keyedDigest_isHmacSha256()
    {
        // RFC 4231, test cases 1 and 2; HMAC pads a short key with zeros, so they may be written
        // out.
        QByteArray key(20, '\x0b');
        key.resize(32, '\0');
        const SiteKeys first(QStringLiteral("0011223344556677"), Secret(QByteArray(32, 'p')),
                             Secret(key));
        QCOMPARE(first.keyedDigest("Hi There").toHex(),
                 QByteArray("b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7"));
        key = QByteArray("Jefe");
        key.resize(32, '\0');
        const SiteKeys second(QStringLiteral("0011223344556677"), Secret(QByteArray(32, 'p')),
                              Secret(key));
        QCOMPARE(second.keyedDigest("what do ya want for nothing?").toHex(),
                 QByteArray("5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"));
    }

    void matches_onlyItsOwnDigest()
    {
        const auto keys = SiteKeyFile(m_path).create();
        QVERIFY(keys);
        const QByteArray digest = keys->keyedDigest("head 17");
        QVERIFY(keys->matches(digest, "head 17"));
        QVERIFY(!keys->matches(digest, "head 18"));
        QVERIFY(!keys->matches(digest.chopped(1), "head 17"));
        QVERIFY(!keys->matches({}, "head 17"));
    }

private:
    std::unique_ptr<QTemporaryDir> m_folder;
    QString m_path;
};

RAMPLIGHT_TEST(QCoreApplication, TestSiteKeyFile)
#include "tst_sitekeyfile.moc"
