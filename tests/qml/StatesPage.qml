// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Controls

GalleryPage {
    id: root

    title: "A card in every state"

    component Card: Rectangle {
        id: card

        required property int index
        required property string modelData
        readonly property list<string> parts: modelData.split("|")
        readonly property int band: Number(parts[0])
        readonly property bool ready: parts[1] === "ready for release"

        color: Theme.paper
        radius: Theme.radius

        StateBand {
            anchors { left: parent.left; top: parent.top; bottom: parent.bottom }
            band: card.band
        }

        FoldedCorner {
            anchors { right: parent.right; bottom: parent.bottom; margins: -1 }
            visible: card.ready
        }

        Label {
            id: stock

            x: Theme.band + Theme.module
            y: Theme.half
            text: "R-2" + (10 + card.index)
            role: Label.Distance
        }

        CarOutline {
            id: car

            x: Theme.band + Theme.half
            anchors { top: stock.bottom; bottom: foot.top; bottomMargin: Theme.half }
            shape: ["hatch", "saloon", "estate", "suv", "coupe", "mpv", "van", "pickup", "convertible"][card.index]
            marks: ({ "wheel-front-left": CarOutline.Filled, "bonnet": CarOutline.Hollow, "rear-door-right": CarOutline.Filled })
        }

        Column {
            anchors { left: car.right; leftMargin: Theme.half; right: parent.right; rightMargin: Theme.module; top: stock.bottom }
            spacing: Theme.half

            Label {
                width: parent.width
                text: "Pellew Anda 1.4"
                elide: Text.ElideRight
            }

            Row {
                spacing: Theme.half

                Icon {
                    anchors.verticalCenter: parent.verticalCenter
                    symbol: Icon.HatchMark
                    width: Theme.mm(5)
                    height: Theme.mm(5)
                }

                Label {
                    text: "Front tyre: replace"
                    strong: true
                }
            }

            Row {
                spacing: Theme.half

                Icon {
                    anchors.verticalCenter: parent.verticalCenter
                    symbol: Icon.RingMark
                    width: Theme.mm(5)
                    height: Theme.mm(5)
                }

                Label {
                    text: "Wheel: refurbish"
                }
            }
        }

        Strap {
            anchors { left: parent.left; leftMargin: Theme.band; right: parent.right; verticalCenter: parent.verticalCenter }
            visible: card.parts[2] === "strap"
            height: Theme.mm(22)
            text: "Do not move"
        }

        Label {
            id: foot

            anchors { left: parent.left; leftMargin: Theme.band + Theme.module; bottom: parent.bottom; bottomMargin: Theme.module }
            text: card.parts[1]
        }
    }

    Grid {
        columns: root.tall ? 2 : 4
        spacing: Theme.mm(4)

        Repeater {
            model: ["7|held by safety|strap", "1|in hand", "2|paused", "3|awaiting check", "0|waiting", "6|blocked, part due Thu", "4|closed", "5|left as is", "8|ready for release"]

            delegate: Card {
                width: (root.innerWidth - (root.tall ? 1 : 3) * Theme.mm(4)) / (root.tall ? 2 : 4)
                height: (root.innerHeight - (root.tall ? 4 : 2) * Theme.mm(4)) / (root.tall ? 5 : 3)
            }
        }
    }
}
