// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Controls

GalleryPage {
    id: root

    title: "An operation in hand"

    Flow {
        anchors.fill: parent
        spacing: Theme.gap

        Sheet {
            width: root.tall ? root.innerWidth : root.innerWidth * 0.58
            height: root.tall ? Theme.mm(250) : root.innerHeight

            Column {
                width: parent.width
                spacing: Theme.module

                Label {
                    width: parent.width
                    text: "Near side front wheel: refurbish, painted"
                    role: Label.Title
                    wrapMode: Text.WordWrap
                }

                BigTimer {
                    width: parent.width
                    minutes: 38
                    usual: 90
                    usualFrom: 70
                    usualTo: 120
                    startedText: "started 13:22"
                }

                BigTimer {
                    width: parent.width
                    minutes: 145
                    usual: 90
                    usualFrom: 70
                    usualTo: 120
                    running: false
                    startedText: "started 11:02"
                }

                Column {
                    width: parent.width

                    ReadingRow { width: parent.width; title: "Minutes at that temperature"; value: "15"; unit: "min"; limit: "10 to 20 min"; source: "product data sheet"; reading: ReadingRow.Inside }
                    ReadingRow { width: parent.width; title: "Metal temperature in the oven"; unit: "\u00b0C"; limit: "up to 200 \u00b0C"; source: "house"; active: true }
                    ReadingRow { width: parent.width; title: "Tread, outer third"; value: "1.4"; unit: "mm"; limit: "at least 1.6 mm"; source: "law"; reading: ReadingRow.Outside }
                    ReadingRow { width: parent.width; title: "Bakes this wheel has had"; value: "1"; limit: "no limit: noted only"; source: "house"; reading: ReadingRow.Recorded; editable: false }
                }
            }
        }

        Sheet {
            width: root.tall ? root.innerWidth : root.innerWidth * 0.42 - Theme.gap
            height: root.tall ? root.innerHeight - Theme.mm(250) - Theme.gap : root.innerHeight
            title: "Read before work"

            Column {
                width: parent.width
                spacing: Theme.module

                CautionLine { width: parent.width; text: "Strip and blast only in the closed cabinet, extraction on."; note: "read by Ines 13:22" }
                CautionLine { width: parent.width; text: "Two-pack paint: air-fed mask, never lifted; wait for the booth to clear."; note: "read by Ines 13:22" }

                Label {
                    width: parent.width
                    text: "Follow the vehicle maker's data and your local law; work that needs a licence or certificate is for qualified people."
                    role: Label.Detail
                    muted: true
                    wrapMode: Text.WordWrap
                }

                Row {
                    spacing: Theme.gap

                    PhotoTile { prompt: "photograph before"; required: true }
                    PhotoTile { prompt: "photograph after" }
                    PhotoTile { source: "qrc:/ramplight/outlines/hatch.svg"; caption: "before 09:14" }
                }
            }
        }
    }
}
